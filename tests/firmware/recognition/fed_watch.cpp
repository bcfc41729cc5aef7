#include "firmware/recognition/fed_watch.hpp"

#include <gtest/gtest.h>

namespace {

using namespace firmware;

constexpr Permille forty_percent{400};

Readings climbing() {
    Readings seen;
    seen.line_voltage_rms = MilliVolts{230000};
    seen.start_terminal_voltage_rms = MilliVolts{75000};
    seen.output_current_rms = MilliAmperes{36000};
    seen.output_current = {MilliAmperes{14000}, MilliAmperes{14500}, MilliAmperes{-5000}};
    seen.relate_to_line();
    return seen;
}

class FedWatchTest : public ::testing::Test {
  protected:
    FedWatchTest() { watch.begin(MilliAmperes{80000}, true); }

    // Half cycles until the watch speaks; 0 when it does not within a hundred.
    int half_cycles_until(const Readings& seen, Reason expected) {
        for (int half = 1; half <= 100; ++half) {
            const Reason reason = watch.half_cycle(seen, forty_percent);
            if (reason != Reason::none) {
                EXPECT_EQ(reason, expected) << name_of(reason);
                return half;
            }
        }
        return 0;
    }

    FedWatch watch{Settings{}};
};

TEST_F(FedWatchTest, SaysNothingOfASoundClimb) {
    EXPECT_EQ(half_cycles_until(climbing(), Reason::none), 0);
}

// Covers: CL-07
TEST_F(FedWatchTest, AMissingCurrentCountsAfterSixHalfCycles) {
    Readings seen = climbing();
    seen.output_current_rms = MilliAmperes{399};
    EXPECT_EQ(half_cycles_until(seen, Reason::current_lost), 6);
    watch.begin(MilliAmperes{80000}, true);
    seen.output_current_rms = MilliAmperes{400};
    EXPECT_EQ(half_cycles_until(seen, Reason::none), 0);
}

// Covers: CL-08
TEST_F(FedWatchTest, AVoltageAtSThatWasThereAndIsGoneCountsAfterSixHalfCycles) {
    Readings seen = climbing();
    seen.start_terminal_voltage_rms = MilliVolts{4500};
    seen.relate_to_line();
    EXPECT_EQ(half_cycles_until(seen, Reason::start_terminal_dead), 6);
    watch.begin(MilliAmperes{80000}, false);
    EXPECT_EQ(half_cycles_until(seen, Reason::none), 0) << "it was never there";
}

// Covers: CL-05
TEST_F(FedWatchTest, UnequalHalfWavesCountAfterSixHalfCyclesEitherWay) {
    for (const bool positive : {true, false}) {
        watch.begin(MilliAmperes{80000}, true);
        Readings seen = climbing();
        (positive ? seen.output_current.positive : seen.output_current.negative) =
            MilliAmperes{23000};
        EXPECT_EQ(half_cycles_until(seen, Reason::half_waves_unequal), 6);
    }
}

TEST_F(FedWatchTest, ADifferenceTooSmallToHarmDoesNotCount) {
    Readings seen = climbing();
    seen.output_current_rms = MilliAmperes{6000};
    seen.output_current = {MilliAmperes{4000}, MilliAmperes{0}, MilliAmperes{0}};
    EXPECT_EQ(half_cycles_until(seen, Reason::none), 0);
    seen.output_current.positive = MilliAmperes{4001};
    EXPECT_EQ(half_cycles_until(seen, Reason::half_waves_unequal), 6);
}

TEST_F(FedWatchTest, WhileHandingOverOnlyANearlySilentThyristorCounts) {
    watch.hand_over_begins();
    Readings seen = climbing();
    seen.output_current = {MilliAmperes{17000}, MilliAmperes{3000}, MilliAmperes{-5000}};
    EXPECT_EQ(half_cycles_until(seen, Reason::none), 0);
    seen.output_current.negative = MilliAmperes{2900};
    EXPECT_EQ(half_cycles_until(seen, Reason::half_waves_unequal), 6);
    watch.begin(MilliAmperes{80000}, true);
    seen.output_current.negative = MilliAmperes{8000};
    EXPECT_EQ(half_cycles_until(seen, Reason::half_waves_unequal), 6) << "the next climb";
}

// Covers: CL-06
TEST_F(FedWatchTest, MoreCurrentThanWasOrderedCountsAfterSixHalfCycles) {
    Readings seen = climbing();
    seen.output_current_rms = MilliAmperes{60001};  // 40 + 35 % of 80 A, and a little more
    EXPECT_EQ(half_cycles_until(seen, Reason::current_beyond_order), 6);
    watch.begin(MilliAmperes{80000}, true);
    seen.output_current_rms = MilliAmperes{60000};
    EXPECT_EQ(half_cycles_until(seen, Reason::none), 0);
}

TEST_F(FedWatchTest, WhatEndsWithinItsPatienceIsForgotten) {
    Readings bad = climbing();
    bad.output_current_rms = MilliAmperes{0};
    for (int repeat = 0; repeat < 20; ++repeat) {
        for (int half = 0; half < 5; ++half) {
            ASSERT_EQ(watch.half_cycle(bad, forty_percent), Reason::none);
        }
        ASSERT_EQ(watch.half_cycle(climbing(), forty_percent), Reason::none);
    }
}

TEST_F(FedWatchTest, ADeadSensorIsNoLoneThyristor) {
    Readings stuck = climbing();
    stuck.output_current_rms = MilliAmperes{0};
    stuck.output_current = {MilliAmperes{9000}, MilliAmperes{0}, MilliAmperes{0}};
    EXPECT_EQ(half_cycles_until(stuck, Reason::current_lost), 6);
}

}  // namespace
