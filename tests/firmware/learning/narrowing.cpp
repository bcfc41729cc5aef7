// The learning law against a made-up compressor whose truth is known: it comes up in time from
// every first stage at or above its threshold.
#include "firmware/learning/narrowing.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <vector>

namespace {

using namespace firmware;

constexpr MilliAmperes motor{80000};

/// A compressor, told by what it needs.
struct Compressor {
    std::int32_t threshold_permille;
    /// Below this level the hand-over decides the current, which then no longer falls.
    std::int32_t floor_permille = 0;
    MilliAmperes locked_rotor = motor;

    StartReport start(const Ladder& ladder) const {
        StartReport report;
        report.locked_rotor = locked_rotor;
        for (std::uint8_t stage = 0; stage < ladder.count; ++stage) {
            const std::int32_t target = ladder.stages[stage].target.count();
            if (target >= threshold_permille) {
                report.stage = stage;
                report.climb_ms = 300 + 250 * stage;
                report.inrush = MilliAmperes{std::max(target, floor_permille) * 80};
                report.peak = report.inrush;
                return report;
            }
        }
        report.ended = Reason::stages_used_up;
        report.stage = static_cast<std::uint8_t>(ladder.count - 1);
        return report;
    }
};

struct Bench {
    Narrowing law{Settings{}};
    Learned learned = law.fresh();

    StartReport start(const Compressor& compressor) {
        const StartReport report =
            compressor.start(law.ladder_for(learned, compressor.locked_rotor));
        learned = law.after(learned, report);
        return report;
    }
    void settle(const Compressor& compressor) {
        for (int k = 0; k < 6; ++k) {
            start(compressor);
        }
    }
};

TEST(Narrowing, BeginsWithTheLadderOfTheSettings) {
    const Bench bench;
    const Ladder ladder = bench.law.ladder_for(bench.learned, motor);
    const Ladder factory = factory_ladder(Settings{});
    ASSERT_EQ(ladder.count, factory.count);
    for (std::size_t i = 0; i < factory.count; ++i) {
        EXPECT_EQ(ladder.stages[i].target, factory.stages[i].target);
        EXPECT_EQ(ladder.stages[i].dwell, factory.stages[i].dwell);
    }
}

TEST(Narrowing, SettlesWithinSixStartsAndThenStaysForManyMore) {
    for (std::int32_t threshold = 60; threshold <= 840; threshold += 7) {
        Bench bench;
        bench.settle({threshold});
        EXPECT_TRUE(bench.learned.settled) << threshold;
        const Permille settled = bench.learned.level;
        for (int k = 0; k < 40; ++k) {
            const StartReport report = bench.start({threshold});
            EXPECT_EQ(report.stage, 0) << threshold;
            EXPECT_EQ(bench.learned.level, settled) << threshold;
        }
    }
}

TEST(Narrowing, SettlesAtMostATenthAboveTheWeakestLadderThatWorks) {
    for (std::int32_t threshold = 110; threshold <= 400; threshold += 3) {
        Bench bench;
        bench.settle({threshold});
        EXPECT_GE(bench.learned.level.count(), threshold);
        EXPECT_LE(bench.learned.level.count(), threshold * 110 / 100 + 1) << threshold;
    }
}

TEST(Narrowing, NeverUsesMoreThanTheSettingsWhereThoseSuffice) {
    for (std::int32_t threshold = 60; threshold <= 400; threshold += 5) {
        Bench bench;
        for (int k = 0; k < 80; ++k) {
            EXPECT_LE(bench.start({threshold}).inrush.count(), 400 * 80) << threshold;
        }
    }
}

TEST(Narrowing, ATrialThatIsTooWeakStillStartsOnItsSecondStage) {
    for (std::int32_t threshold = 60; threshold <= 840; threshold += 11) {
        Bench bench;
        for (int k = 0; k < 120; ++k) {
            const StartReport report = bench.start({threshold});
            EXPECT_TRUE(report.came_up()) << threshold;
            if (k > 0) {
                EXPECT_LE(report.stage, 1) << threshold << " start " << k;
            }
        }
    }
}

TEST(Narrowing, DoesNotGoFarBelowTheLevelWhereTheCurrentStopsFalling) {
    // Half of the threshold's level would do, but brings nothing and takes longer.
    Bench bench;
    bench.settle({80, 300});
    EXPECT_TRUE(bench.learned.settled);
    EXPECT_GE(bench.learned.level.count(), 160);
    EXPECT_EQ(bench.start({80, 300}).inrush.count(), 300 * 80);
}

TEST(Narrowing, AHarderWorldIsMetWithinTheCallAndSettledAgainWithinSixStarts) {
    for (const std::int32_t before : {120, 200, 300, 390}) {
        for (const std::int32_t harder : {110, 130, 160, 200}) {
            Bench bench;
            bench.settle({before});
            const std::int32_t now = std::min(840, before * harder / 100);
            EXPECT_TRUE(bench.start({now}).came_up());
            bench.settle({now});
            EXPECT_TRUE(bench.learned.settled) << before << " to " << now;
            EXPECT_EQ(bench.start({now}).stage, 0);
            EXPECT_LE(bench.learned.level.count(), now * 125 / 100 + 1) << before << " to " << now;
        }
    }
}

TEST(Narrowing, MeetsAnotherMotorWithTheLadderOfTheSettings) {
    Bench bench;
    bench.settle({150});
    const Ladder ladder = bench.law.ladder_for(bench.learned, MilliAmperes{120000});
    EXPECT_EQ(ladder.stages[0].target.count(), 400);
    Compressor larger{390};
    larger.locked_rotor = MilliAmperes{120000};
    EXPECT_EQ(bench.start(larger).stage, 0);
    EXPECT_EQ(bench.learned.locked_rotor.count(), 120000);
    bench.settle(larger);
    EXPECT_GE(bench.learned.level.count(), 390);
}

TEST(Narrowing, FollowsASlowDriftOverFiveHundredStarts) {
    Bench bench;
    bench.settle({380});
    for (int k = 0; k < 500; ++k) {
        EXPECT_TRUE(bench.start({380 - k / 5}).came_up());
    }
    EXPECT_LE(bench.learned.good.count(), 380 * 92 / 100);
    for (int k = 0; k < 500; ++k) {
        EXPECT_TRUE(bench.start({280 + k / 5}).came_up());
    }
    EXPECT_GE(bench.learned.good.count(), 379);
}

TEST(Narrowing, LearnsNothingFromAStartThatTheLineOrTheCallEnded) {
    Bench bench;
    bench.settle({200});
    const Learned before = bench.learned;
    for (const Reason reason :
         {Reason::call_ended, Reason::line_sagged, Reason::line_lost, Reason::line_frequency_off,
          Reason::line_voltage_high, Reason::current_lost, Reason::stalled}) {
        StartReport report;
        report.ended = reason;
        report.locked_rotor = motor;
        const Learned after = bench.law.after(before, report);
        EXPECT_EQ(after.level, before.level);
        EXPECT_EQ(after.good, before.good);
        EXPECT_EQ(after.weak, before.weak);
        EXPECT_EQ(after.starts, before.starts);
        EXPECT_EQ(after.settled, before.settled);
    }
}

TEST(Narrowing, OnlyEverClimbs) {
    for (std::int32_t threshold = 60; threshold <= 1200; threshold += 13) {
        Bench bench;
        for (int k = 0; k < 30; ++k) {
            const Ladder ladder = bench.law.ladder_for(bench.learned, motor);
            for (std::size_t i = 0; i < ladder.count; ++i) {
                EXPECT_GE(ladder.stages[i].target.count(), 100);
                EXPECT_LE(ladder.stages[i].target.count(), 1000);
                if (i > 0) {
                    EXPECT_GT(ladder.stages[i].target, ladder.stages[i - 1].target)
                        << threshold << " start " << k << " stage " << i;
                }
            }
            bench.start({threshold});
        }
    }
}

}  // namespace
