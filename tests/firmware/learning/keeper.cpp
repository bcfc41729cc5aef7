// What has been learned, carried through power cuts.
#include "firmware/learning/keeper.hpp"

#include <gtest/gtest.h>

#include "firmware/settings/settings.hpp"
#include "memory/flash.hpp"

namespace {

using namespace firmware;
using memory_test::Flash;

Learned learned_at(std::int32_t level) {
    Learned learned;
    learned.level = Permille{level};
    learned.good = Permille{level};
    learned.locked_rotor = MilliAmperes{80000};
    return learned;
}

/// So many ticks with the motor off.
void idle(Keeper& keeper, Flash& flash, const Learned& now, int ticks) {
    for (int k = 0; k < ticks; ++k) {
        flash.carry_out(keeper.step(now, {}, false));
    }
    EXPECT_EQ(flash.broken_rule(), "");
}

TEST(Keeper, OfAnErasedStoreIsFreshAndWritesNothingUntilThereIsSomething) {
    Flash flash;
    Keeper keeper(flash.pages());
    EXPECT_EQ(keeper.recovery(), Recovery::fresh);
    EXPECT_TRUE(keeper.learned().is_fresh());
    idle(keeper, flash, Learned{}, 100);
    EXPECT_EQ(flash.writes(), 0);
    EXPECT_EQ(flash.erases(0) + flash.erases(1), 0);
}

TEST(Keeper, FindsAtTheNextPowerUpWhatItWasGiven) {
    Flash flash;
    Keeper keeper(flash.pages());
    idle(keeper, flash, learned_at(412), 30);
    const Keeper next(flash.pages());
    EXPECT_EQ(next.recovery(), Recovery::recovered);
    EXPECT_EQ(next.learned().level.count(), 412);
    EXPECT_EQ(next.learned().locked_rotor.count(), 80000);
}

TEST(Keeper, WritesAnUnchangedRecordOnce) {
    Flash flash;
    Keeper keeper(flash.pages());
    idle(keeper, flash, learned_at(412), 1000);
    const int once = flash.writes();
    EXPECT_EQ(once, static_cast<int>(record_words));
    Keeper next(flash.pages());
    idle(next, flash, next.learned(), 1000);
    EXPECT_EQ(flash.writes(), once);
}

// Covers: ME-04
TEST(Keeper, TouchesTheStoreOnlyWhileTheMotorIsNotFed) {
    Flash flash;
    Keeper keeper(flash.pages());
    for (int k = 0; k < 1000; ++k) {
        EXPECT_EQ(keeper.step(learned_at(412), {}, true).kind, StoreCommandKind::none);
    }
    // Also in the middle of a record, which goes on afterwards.
    idle(keeper, flash, learned_at(412), 4);
    for (int k = 0; k < 1000; ++k) {
        EXPECT_EQ(keeper.step(learned_at(412), {}, true).kind, StoreCommandKind::none);
    }
    idle(keeper, flash, learned_at(412), 30);
    EXPECT_EQ(Keeper(flash.pages()).learned().level.count(), 412);
}

TEST(Keeper, KeepsTheLastOfManyThatCameWhileItWasBusy) {
    Flash flash;
    Keeper keeper(flash.pages());
    for (int level = 200; level < 230; ++level) {
        idle(keeper, flash, learned_at(level), 1);
    }
    idle(keeper, flash, learned_at(230), 60);
    EXPECT_EQ(Keeper(flash.pages()).learned().level.count(), 230);
}

// Covers: ME-05
TEST(Keeper, HoldsThatARestIsOwedAlsoBeforeAnythingIsLearned) {
    Flash flash;
    Keeper keeper(flash.pages());
    EXPECT_FALSE(keeper.rest_mark().owed);
    int ticks = 0;
    while (!keeper.holds_rest_owed()) {
        flash.carry_out(keeper.step(Learned{}, {true, 2}, false));
        ASSERT_LT(++ticks, 20);
    }
    const Keeper next(flash.pages());
    EXPECT_EQ(next.rest_mark(), (RestMark{true, 2}));
    EXPECT_TRUE(next.learned().is_fresh());
    EXPECT_EQ(next.recovery(), Recovery::recovered);
    EXPECT_TRUE(next.holds_rest_owed());
}

TEST(Keeper, HoldsBothAndTakesTheMarkAwayAgain) {
    Flash flash;
    Keeper keeper(flash.pages());
    for (int i = 0; i < 20; ++i) {
        flash.carry_out(keeper.step(learned_at(412), {true, 1}, false));
    }
    EXPECT_TRUE(keeper.holds_rest_owed());
    EXPECT_EQ(Keeper(flash.pages()).learned().level.count(), 412);
    EXPECT_TRUE(Keeper(flash.pages()).rest_mark().owed);
    for (int i = 0; i < 20; ++i) {
        flash.carry_out(keeper.step(learned_at(412), {}, false));
    }
    EXPECT_FALSE(keeper.holds_rest_owed());
    EXPECT_EQ(Keeper(flash.pages()).learned().level.count(), 412);
    EXPECT_FALSE(Keeper(flash.pages()).rest_mark().owed);
    EXPECT_EQ(flash.broken_rule(), "");
}

// Covers: ME-05
TEST(Keeper, LosesNoneOfTheLearningToTheMark) {
    Learned all;
    for (std::int32_t level = 100; level <= 4000; level += 100) {
        all.level = all.good = all.weak = all.strong = Permille{level};
        all.inrush_at_good = all.peak_at_good = all.locked_rotor = MilliAmperes{450000};
        all.climb_ms_at_good = 65535;
        all.starts = all.misses = 255;
        all.stage_at_good = Settings::most_stages - 1;
        all.settled = true;
        for (const RestMark mark : {RestMark{}, RestMark{true, 0}, RestMark{true, 31}}) {
            Flash flash;
            Keeper keeper(flash.pages());
            for (int i = 0; i < 20; ++i) {
                flash.carry_out(keeper.step(all, mark, false));
            }
            const Keeper next(flash.pages());
            EXPECT_EQ(next.recovery(), Recovery::recovered) << level;
            EXPECT_EQ(payload_of(next.learned()), payload_of(all)) << level;
            EXPECT_EQ(next.rest_mark(), mark) << level;
        }
    }
}

TEST(Keeper, TakesAWholeRecordThatMakesNoSenseForNoneAndSaysSo) {
    Flash flash;
    Journal journal(flash.pages());
    memory_test::save_whole(journal, flash, Payload{5000, 0, 0, 0, 80000, 0});
    const Keeper keeper(flash.pages());
    EXPECT_EQ(keeper.recovery(), Recovery::nothing_valid);
    EXPECT_TRUE(keeper.learned().is_fresh());
}

}  // namespace
