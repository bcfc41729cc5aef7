#include "firmware/sequence/line_watch.hpp"

#include <gtest/gtest.h>

namespace {

using namespace firmware;

Observation line(std::int32_t voltage_mV, std::int32_t frequency_mHz, bool locked = true) {
    Observation seen;
    seen.line_locked = locked;
    seen.readings_are_new = true;
    seen.line_frequency = MilliHertz{frequency_mHz};
    seen.readings.line_voltage_rms = MilliVolts{voltage_mV};
    return seen;
}

// Covers: LW-03
TEST(LineWatch, AStartNeedsALockedLineInsideItsLimits) {
    const LineWatch watch{Settings{}};
    EXPECT_EQ(watch.judge_for_start(line(230000, 50000)), Reason::none);
    EXPECT_EQ(watch.judge_for_start(line(100000, 60000)), Reason::none);
    EXPECT_EQ(watch.judge_for_start(line(230000, 50000, false)), Reason::no_lock);
    EXPECT_EQ(watch.judge_for_start(line(84999, 50000)), Reason::line_voltage_low);
    EXPECT_EQ(watch.judge_for_start(line(275001, 50000)), Reason::line_voltage_high);
    EXPECT_EQ(watch.judge_for_start(line(230000, 44999)), Reason::line_frequency_off);
    EXPECT_EQ(watch.judge_for_start(line(230000, 65001)), Reason::line_frequency_off);
}

// Covers: LW-05
TEST(LineWatch, ASagIsMeasuredAgainstTheVoltageBeforeTheStart) {
    LineWatch watch{Settings{}};
    watch.begin(line(120000, 60000));
    for (int i = 0; i < 100; ++i) {
        EXPECT_EQ(watch.judge_while_fed(line(79000, 60000)), Reason::none);
    }
    EXPECT_EQ(watch.judge_while_fed(line(77000, 60000)), Reason::none);
    EXPECT_EQ(watch.judge_while_fed(line(77000, 60000)), Reason::none);
    EXPECT_EQ(watch.judge_while_fed(line(77000, 60000)), Reason::line_sagged);
}

// Covers: LW-05
TEST(LineWatch, AFaultThatEndsWithinItsPatienceIsForgotten) {
    LineWatch watch{Settings{}};
    watch.begin(line(230000, 60000));
    for (int i = 0; i < 50; ++i) {
        EXPECT_EQ(watch.judge_while_fed(line(100000, 60000)), Reason::none);
        EXPECT_EQ(watch.judge_while_fed(line(300000, 60000)), Reason::none);
        EXPECT_EQ(watch.judge_while_fed(line(230000, 60000)), Reason::none);
    }
}

// Covers: LRN-12
TEST(LineWatch, ALineThatStandsATenthAboveThatBeforeTheStartIsLifted) {
    LineWatch watch{Settings{}};
    watch.begin(line(230000, 50000));
    EXPECT_FALSE(watch.lifted(line(230000, 50000)));
    EXPECT_FALSE(watch.lifted(line(253000, 50000)));
    EXPECT_TRUE(watch.lifted(line(253001, 50000)));
}

// Covers: LW-04
TEST(LineWatch, AKnownRatedVoltageNarrowsTheLimits) {
    Settings settings;
    settings.rated_voltage_V = 115;
    LineWatch watch{settings};
    EXPECT_EQ(watch.judge_for_start(line(84999, 60000)), Reason::line_voltage_low);
    EXPECT_EQ(watch.judge_for_start(line(85000, 60000)), Reason::none);
    EXPECT_EQ(watch.judge_for_start(line(136850, 60000)), Reason::none);
    EXPECT_EQ(watch.judge_for_start(line(136851, 60000)), Reason::line_voltage_high);
    watch.begin(line(120000, 60000));
    for (int i = 0; i < 2; ++i) {
        EXPECT_EQ(watch.judge_while_fed(line(150000, 60000)), Reason::none);
    }
    EXPECT_EQ(watch.judge_while_fed(line(150000, 60000)), Reason::line_voltage_high);
    settings.rated_voltage_V = 230;
    const LineWatch higher{settings};
    EXPECT_EQ(higher.judge_for_start(line(160999, 50000)), Reason::line_voltage_low);
    EXPECT_EQ(higher.judge_for_start(line(161000, 50000)), Reason::none);
    // The absolute limit still holds where it is the narrower one.
    settings.rated_voltage_V = 300;
    EXPECT_EQ(LineWatch{settings}.judge_for_start(line(275001, 50000)), Reason::line_voltage_high);
}

// Covers: LW-03
TEST(LineWatch, AFrequencyOutsideItsLimitsWhileFedEndsTheFeeding) {
    for (const std::int32_t frequency_mHz : {45999, 64001}) {
        LineWatch watch{Settings{}};
        watch.begin(line(230000, 50000));
        EXPECT_EQ(watch.judge_while_fed(line(230000, frequency_mHz)), Reason::none);
        EXPECT_EQ(watch.judge_while_fed(line(230000, frequency_mHz)), Reason::none);
        EXPECT_EQ(watch.judge_while_fed(line(230000, frequency_mHz)), Reason::line_frequency_off);
    }
}

// Covers: LW-06
TEST(LineWatch, ALostLockCountsAtOnce) {
    LineWatch watch{Settings{}};
    watch.begin(line(230000, 60000));
    Observation seen = line(230000, 60000, false);
    seen.readings_are_new = false;
    EXPECT_EQ(watch.judge_while_fed(seen), Reason::line_lost);
}

}  // namespace
