#include "firmware/learning/learned_payload.hpp"

#include <gtest/gtest.h>

#include <cstdint>
#include <random>

#include "firmware/learning/easing.hpp"
#include "firmware/memory/rest_mark.hpp"

namespace {

using namespace firmware;

Learned some() {
    Learned learned;
    learned.level = Permille{612};
    learned.good = Permille{640};
    learned.weak = Permille{586};
    learned.inrush_at_good = MilliAmperes{25100};
    learned.peak_at_good = MilliAmperes{39100};
    learned.climb_ms_at_good = 431;
    learned.stage_at_good = 7;
    learned.strong = Permille{1175};
    learned.locked_rotor = MilliAmperes{80300};
    learned.starts = 41;
    learned.misses = 1;
    learned.settled = true;
    return learned;
}

TEST(LearnedPayload, LeadsBackToWhatWasLearned) {
    Learned back;
    ASSERT_TRUE(learned_from(payload_of(some()), back));
    EXPECT_EQ(payload_of(back), payload_of(some()));
    EXPECT_EQ(back.level.count(), 612);
    EXPECT_EQ(back.good.count(), 640);
    EXPECT_EQ(back.weak.count(), 586);
    EXPECT_EQ(back.inrush_at_good.count(), 25100);
    EXPECT_EQ(back.peak_at_good.count(), 39100);
    EXPECT_EQ(back.climb_ms_at_good, 431);
    EXPECT_EQ(back.stage_at_good, 7);
    EXPECT_EQ(back.strong.count(), 1175);
    EXPECT_EQ(back.locked_rotor.count(), 80300);
    EXPECT_EQ(back.starts, 41);
    EXPECT_EQ(back.misses, 1);
    EXPECT_TRUE(back.settled);
}

TEST(LearnedPayload, ThatMakesNoSenseIsRefusedAndChangesNothing) {
    const auto refused = [](void (*spoil)(Payload&)) {
        Payload payload = payload_of(some());
        spoil(payload);
        Learned untouched;
        const bool taken = learned_from(payload, untouched);
        return !taken && untouched.is_fresh() && untouched.level.count() == 1000;
    };
    EXPECT_TRUE(refused([](Payload& p) { p[0] = 4001; }));
    EXPECT_TRUE(refused([](Payload& p) { p[0] = 1; }));
    EXPECT_TRUE(refused([](Payload& p) { p[0] = 612 | (65535U << 16); }));
    EXPECT_TRUE(refused([](Payload& p) { p[1] = 65535U; }));
    EXPECT_TRUE(refused([](Payload& p) { p[2] = 450001; }));
    EXPECT_TRUE(refused([](Payload& p) { p[3] = 450001; }));
    EXPECT_TRUE(refused([](Payload& p) { p[4] = 0; }));
    EXPECT_TRUE(refused([](Payload& p) { p[2] = (p[2] & 0xFFFFFU) | 99U << 20; }));
    EXPECT_TRUE(refused([](Payload& p) { p = Payload{}; }));
}

// Covers: LRN-04
TEST(LearnedPayload, OfRandomWordsThatIsTakenOverGivesALadderInsideTheControllersBounds) {
    std::mt19937 engine(7);
    const auto below = [&engine](std::uint32_t end) {
        return static_cast<std::uint32_t>(engine()) % end;
    };
    const Easing law{Settings{}};
    int taken = 0;
    for (int k = 0; k < 100000; ++k) {
        // Small enough for a share of them to make sense.
        const Payload payload = {below(2100) | (below(2100) << 16),
                                 below(2100) | (below(2100) << 16),
                                 below(500000) | (below(2100) << 20),
                                 below(500000),
                                 below(500000),
                                 below(1U << 20)};
        Learned learned;
        if (!learned_from(payload, learned)) {
            continue;
        }
        ++taken;
        const Ladder ladder = law.ladder_for(learned, learned.locked_rotor);
        std::int32_t last = 39;
        for (std::size_t i = 0; i < ladder.count; ++i) {
            EXPECT_GT(ladder.stages[i].target.count(), last);
            EXPECT_LE(ladder.stages[i].target.count(), 1000);
            last = ladder.stages[i].target.count();
        }
    }
    EXPECT_GT(taken, 1000);
}

TEST(LearnedPayload, OfWhateverCanBeLearnedIsTakenOver) {
    // Starts that end in any way, in any order: what they teach must survive a power cut.
    std::mt19937 engine(11);
    const auto below = [&engine](std::uint32_t end) {
        return static_cast<std::int32_t>(static_cast<std::uint32_t>(engine()) % end);
    };
    // A first stage of a tenth of what follows: the levels between the stages are the largest.
    Settings steep;
    steep.stages = {{{100, 250}, {990, 250}, {995, 300}, {1000, 400}}};
    ASSERT_EQ(check(steep), SettingsProblem::none);
    int bounded_from_above = 0;
    for (int life = 0; life < 2000; ++life) {
        const Easing law{life % 2 == 0 ? Settings{} : steep};
        Learned learned = Easing::fresh();
        for (int k = 0; k < 60; ++k) {
            StartReport report;
            constexpr Reason ends[] = {Reason::none, Reason::none, Reason::none,
                                       Reason::stages_used_up, Reason::line_sagged};
            report.ended = ends[below(5)];
            report.stage = static_cast<std::uint8_t>(below(4));
            report.locked_rotor = MilliAmperes{below(20) == 0 ? 40000 : 80000};
            report.inrush = MilliAmperes{10000 + below(60000)};
            report.climb_ms = 100 + below(1500);
            learned = law.after(learned, report);
            Learned back;
            const Payload payload = payload_of(learned);
            ASSERT_TRUE(learned_from(payload, back)) << life << " start " << k;
            EXPECT_EQ(payload_of(back), payload);
            // The strong level once lay where the mark of an owed rest lies, and was lost to it.
            ASSERT_EQ(without_rest_mark(payload), payload) << life << " start " << k;
            bounded_from_above += learned.strong.count() > 0 ? 1 : 0;
        }
    }
    EXPECT_GT(bounded_from_above, 100);
}

}  // namespace
