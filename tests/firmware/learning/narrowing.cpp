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
            report.stage = stage;
            report.inrush = MilliAmperes{std::max(target, floor_permille) * 80};
            if (target >= threshold_permille) {
                report.climb_ms += 300;
                return report;
            }
            report.climb_ms += static_cast<std::int32_t>(ladder.stages[stage].dwell.count() / 10);
        }
        report.ended = Reason::stages_used_up;
        return report;
    }
};

struct Bench {
    Narrowing law{Settings{}};
    Learned learned = Narrowing::fresh();

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

// Covers: LRN-01
TEST(Narrowing, SettlesWithinSixStartsAndThenStays) {
    for (std::int32_t threshold = 60; threshold <= 840; threshold += 7) {
        Bench bench;
        bench.settle({threshold});
        EXPECT_TRUE(bench.learned.settled) << threshold;
        const Permille settled = bench.learned.level;
        for (int k = 0; k < 40; ++k) {
            bench.start({threshold});
            EXPECT_EQ(bench.learned.level, settled) << threshold;
        }
    }
}

TEST(Narrowing, SettlesAtMostATenthAboveTheWeakestStageThatWorks) {
    for (std::int32_t threshold = 110; threshold <= 780; threshold += 3) {
        Bench bench;
        bench.settle({threshold});
        const StartReport report = bench.start({threshold});
        EXPECT_TRUE(report.came_up());
        EXPECT_LE(report.inrush.count(), threshold * 80 * 110 / 100) << threshold;
    }
}

// Covers: LRN-02
TEST(Narrowing, SettledNeverDrawsMoreThanTheSettingsLadderThatIsInTime) {
    // Beyond 550 the settings' ladder needs its last stage, and more time than a start may take.
    for (std::int32_t threshold = 60; threshold <= 550; threshold += 5) {
        for (const std::int32_t floor : {0, 300, 600}) {
            const Compressor compressor{threshold, floor};
            Bench bench;
            const std::int32_t settings_draw = bench.start(compressor).inrush.count();
            bench.settle(compressor);
            for (int k = 0; k < 120; ++k) {
                EXPECT_LE(bench.start(compressor).inrush.count(), settings_draw) << threshold;
            }
        }
    }
}

TEST(Narrowing, EveryStartOnTrialComesUpAndNoLaterThanOnItsThirdStage) {
    for (std::int32_t threshold = 60; threshold <= 840; threshold += 11) {
        Bench bench;
        for (int k = 0; k < 120; ++k) {
            const StartReport report = bench.start({threshold});
            EXPECT_TRUE(report.came_up()) << threshold << " start " << k;
            if (k > 0) {
                EXPECT_LE(report.stage, 2) << threshold << " start " << k;
            }
        }
    }
}

TEST(Narrowing, DoesNotGoFarBelowTheLevelWhereTheCurrentStopsFalling) {
    Bench bench;
    bench.settle({80, 300});
    EXPECT_TRUE(bench.learned.settled);
    EXPECT_GE(bench.learned.level.count(), 160);
    EXPECT_EQ(bench.start({80, 300}).inrush.count(), 300 * 80);
}

TEST(Narrowing, AHarderWorldIsMetWithinTheCallAndSettledAgainSoon) {
    for (const std::int32_t before : {120, 200, 300, 390}) {
        for (const std::int32_t harder : {104, 110, 130, 160, 200}) {
            Bench bench;
            bench.settle({before});
            const Compressor now{std::min(780, before * harder / 100)};
            EXPECT_TRUE(bench.start(now).came_up());
            EXPECT_TRUE(bench.start(now).came_up());
            bench.settle(now);
            EXPECT_TRUE(bench.learned.settled) << before << " to " << now.threshold_permille;
            if (bench.learned.level.count() > 0) {
                EXPECT_EQ(bench.start(now).stage, 0) << before << " to " << now.threshold_permille;
            }
            EXPECT_LE(bench.start(now).inrush.count(), now.threshold_permille * 80 * 118 / 100)
                << before << " to " << now.threshold_permille;
        }
    }
}

TEST(Narrowing, AnEasierWorldIsFollowedSlowly) {
    Bench bench;
    bench.settle({380});
    for (int k = 0; k < 500; ++k) {
        EXPECT_TRUE(bench.start({380 - k / 5}).came_up());
    }
    EXPECT_LE(bench.learned.good.count(), 380 * 80 / 100);
    for (int k = 0; k < 500; ++k) {
        EXPECT_TRUE(bench.start({280 + k / 5}).came_up());
    }
    const StartReport last = bench.start({379});
    EXPECT_LE(last.climb_ms, Settings{}.learning_in_time_ms);
    EXPECT_LE(last.inrush.count(), 379 * 80 * 112 / 100);
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
    EXPECT_GE(bench.learned.good.count(), 390);
}

TEST(Narrowing, WithASingleStageNothingIsTried) {
    Settings settings;
    settings.stage_count = 1;
    const Narrowing law(settings);
    Learned learned = Narrowing::fresh();
    for (int k = 0; k < 10; ++k) {
        const Ladder ladder = law.ladder_for(learned, motor);
        EXPECT_EQ(ladder.count, 1);
        EXPECT_EQ(ladder.stages[0].target.count(), 400);
        learned = law.after(learned, Compressor{200}.start(ladder));
    }
}

// Covers: LRN-05
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

// Covers: LRN-03
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
