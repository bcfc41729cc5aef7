#include "firmware/learning/learned_payload.hpp"

#include <gtest/gtest.h>

#include <cstdint>
#include <random>

#include "firmware/learning/narrowing.hpp"

namespace {

using namespace firmware;

Learned some() {
    Learned learned;
    learned.level = Permille{412};
    learned.good = Permille{400};
    learned.weak = Permille{386};
    learned.sure = Permille{550};
    learned.inrush_at_good = MilliAmperes{25100};
    learned.inrush_of_settings = MilliAmperes{29100};
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
    EXPECT_EQ(back.level.count(), 412);
    EXPECT_EQ(back.good.count(), 400);
    EXPECT_EQ(back.weak.count(), 386);
    EXPECT_EQ(back.sure.count(), 550);
    EXPECT_EQ(back.inrush_at_good.count(), 25100);
    EXPECT_EQ(back.inrush_of_settings.count(), 29100);
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
        return !taken && untouched.is_fresh() && untouched.level.count() == 0;
    };
    EXPECT_TRUE(refused([](Payload& p) { p[0] = 1001; }));
    EXPECT_TRUE(refused([](Payload& p) { p[0] = 1; }));
    EXPECT_TRUE(refused([](Payload& p) { p[1] = 65535U << 16; }));
    EXPECT_TRUE(refused([](Payload& p) { p[2] = 450001; }));
    EXPECT_TRUE(refused([](Payload& p) { p[4] = 0; }));
    EXPECT_TRUE(refused([](Payload& p) { p[5] |= 1U << 17; }));
    EXPECT_TRUE(refused([](Payload& p) {
        p[0] = 412;  // a level with nothing to fall back on
        p[1] = 0;
    }));
    EXPECT_TRUE(refused([](Payload& p) { p = Payload{}; }));
}

// Covers: LRN-04
TEST(LearnedPayload, OfRandomWordsThatIsTakenOverGivesALadderInsideTheControllersBounds) {
    std::mt19937 engine(7);
    const auto below = [&engine](std::uint32_t end) {
        return static_cast<std::uint32_t>(engine()) % end;
    };
    const Narrowing law{Settings{}};
    int taken = 0;
    for (int k = 0; k < 100000; ++k) {
        // Small enough for a share of them to make sense.
        const Payload payload = {below(1100) | (below(1100) << 16),
                                 below(1100) | (below(1100) << 16),
                                 below(500000),
                                 below(500000),
                                 below(500000),
                                 below(1U << 17)};
        Learned learned;
        if (!learned_from(payload, learned)) {
            continue;
        }
        ++taken;
        const Ladder ladder = law.ladder_for(learned, learned.locked_rotor);
        std::int32_t last = 49;
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
    const Narrowing law{Settings{}};
    for (int life = 0; life < 2000; ++life) {
        Learned learned = Narrowing::fresh();
        for (int k = 0; k < 60; ++k) {
            StartReport report;
            report.ended = below(4) == 0 ? Reason::stages_used_up : Reason::none;
            report.stage = static_cast<std::uint8_t>(below(4));
            report.locked_rotor = MilliAmperes{below(20) == 0 ? 40000 : 80000};
            report.inrush = MilliAmperes{10000 + below(60000)};
            report.climb_ms = 100 + below(1500);
            learned = law.after(learned, report);
            Learned back;
            ASSERT_TRUE(learned_from(payload_of(learned), back)) << life << " start " << k;
            EXPECT_EQ(payload_of(back), payload_of(learned));
        }
    }
}

}  // namespace
