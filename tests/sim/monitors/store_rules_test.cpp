// What the controller does to its store.
#include "sim/monitors/store_rules.hpp"

#include <gtest/gtest.h>

#include "monitors/tick_sequence.hpp"
#include "sim/monitors/store_while_driving.hpp"

namespace {

using firmware::StoreCommandKind;
using sim::FlashStore;

template <class Monitor>
class StoreBench {
  public:
    void command(const firmware::StoreCommand& command, bool outputs_on) {
        store.begin(command, outputs_on);
        store.pass(sim::usual_page_erase);
        look();
    }
    void look() {
        sim_test::TickSequence& sequence = at_;
        sim::TickView view = sequence.view();
        view.store = &store;
        monitor_.observe(view, 230.0);
        sequence.next();
    }
    const std::optional<sim::Violation>& violation() const { return monitor_.violation(); }

    FlashStore store;

  private:
    sim_test::TickSequence at_;
    Monitor monitor_{sim::MonitorContext{}};
};

constexpr firmware::StoreCommand write_word{StoreCommandKind::write_word, 0, 3, 5};
constexpr firmware::StoreCommand erase_page{StoreCommandKind::erase_page, 0, 0, 0};

TEST(StoreRules, HoldWhileEachWordIsWrittenOnceBetweenErases) {
    StoreBench<sim::StoreRules> bench;
    bench.look();
    for (int k = 0; k < 10; ++k) {
        bench.command(write_word, false);
        bench.command(erase_page, true);
    }
    EXPECT_FALSE(bench.violation());
}

TEST(StoreRules, AreBrokenByAWordThatIsWrittenAgain) {
    StoreBench<sim::StoreRules> bench;
    bench.look();
    bench.command(write_word, false);
    bench.command(write_word, false);
    ASSERT_TRUE(bench.violation());
    EXPECT_EQ(bench.violation()->seen, 1.0);
    EXPECT_EQ(bench.violation()->allowed, 0.0);
    EXPECT_EQ(bench.violation()->unit, "commands");
}

TEST(StoreRules, AreBrokenOutsideTheStore) {
    StoreBench<sim::StoreRules> bench;
    bench.look();
    bench.command({StoreCommandKind::write_word, 0, firmware::store_page_words, 5}, false);
    EXPECT_TRUE(bench.violation());
}

TEST(StoreRules, CountOnlyWhatThisRunBroke) {
    StoreBench<sim::StoreRules> bench;
    bench.store.begin({StoreCommandKind::erase_page, firmware::store_page_count, 0, 0}, true);
    bench.look();
    bench.look();
    EXPECT_FALSE(bench.violation());
}

TEST(StoreWhileDriving, TellsACommandGivenWithAnOutputOn) {
    StoreBench<sim::StoreWhileDriving> bench;
    bench.look();
    bench.command(write_word, false);
    EXPECT_FALSE(bench.violation());
    bench.command(erase_page, true);
    ASSERT_TRUE(bench.violation());
    EXPECT_EQ(bench.violation()->unit, "commands");
}

TEST(StoreWhileDriving, CountsOnlyWhatThisRunDid) {
    StoreBench<sim::StoreWhileDriving> bench;
    bench.store.begin(erase_page, true);
    bench.look();
    bench.look();
    EXPECT_FALSE(bench.violation());
}

}  // namespace
