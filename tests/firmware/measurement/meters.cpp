#include "firmware/measurement/meters.hpp"

#include <gtest/gtest.h>

#include "firmware/contract/sensor_scale.hpp"

namespace {

using namespace firmware;

// Square waves, whose RMS value is their size; the readings are worked out in the last ticks.
void pass_half_cycle(Meters& meters, std::int32_t sign, std::int32_t counts, int ticks = 100) {
    const int begin = ticks - static_cast<int>(Meters::ticks_to_readings);
    for (int tick = 0; tick < ticks; ++tick) {
        Samples samples{};
        samples.line_voltage_counts = sign * counts;
        samples.output_current_counts = sign * counts / 2;
        samples.start_terminal_voltage_counts = sign * counts / 4;
        if (tick == begin) {
            meters.begin_readings();
        }
        meters.work_on();
        meters.add(samples, Phase{});
    }
}

TEST(Meters, TellNewReadingsOnceForEveryHalfCycleAndAlwaysAfterTheSameTime) {
    Meters meters;
    EXPECT_FALSE(meters.has_new_readings());
    for (int half = 0; half < 5; ++half) {
        meters.begin_readings();
        for (std::uint32_t tick = 1; tick <= Meters::ticks_to_readings; ++tick) {
            EXPECT_FALSE(meters.has_new_readings());
            meters.work_on();
        }
        EXPECT_TRUE(meters.has_new_readings());
        meters.take_readings();
        for (int tick = 0; tick < 100; ++tick) {
            meters.work_on();
            EXPECT_FALSE(meters.has_new_readings());
        }
    }
}

TEST(Meters, TellOfTheCycleThatIsEnding) {
    Meters meters;
    for (const std::int32_t sign : {1, -1, 1, -1}) {
        pass_half_cycle(meters, sign, 800);
    }
    const Readings& readings = meters.take_readings();
    EXPECT_EQ(readings.line_voltage_rms.count(), 800 * line_voltage_mV_per_count);
    EXPECT_EQ(readings.output_current_rms.count(), 400 * output_current_mA_per_count);
    EXPECT_EQ(readings.output_current_peak.count(), 400 * output_current_mA_per_count);
    EXPECT_EQ(readings.start_terminal_voltage_rms.count(),
              200 * start_terminal_voltage_mV_per_count);
    // (3 * 800 - 5 * 200) / 8 = 175 counts of 800 mV: their difference.
    EXPECT_EQ(readings.run_capacitor_voltage_rms.count(), 175 * 800);
    EXPECT_EQ(readings.output_current.positive.count(), 200 * output_current_mA_per_count);
    EXPECT_EQ(readings.output_current.negative.count(), 200 * output_current_mA_per_count);
    EXPECT_EQ(readings.start_terminal_level, 10000 * 200 * start_terminal_voltage_mV_per_count /
                                                 (800 * line_voltage_mV_per_count));
    EXPECT_EQ(readings.output_current_offset_counts, 0);
}

TEST(Meters, FollowAStepWithinACycle) {
    Meters meters;
    for (const std::int32_t sign : {1, -1, 1, -1}) {
        pass_half_cycle(meters, sign, 800);
    }
    meters.take_readings();
    pass_half_cycle(meters, 1, 1600);
    pass_half_cycle(meters, -1, 1600);
    // The windows end up to five ticks before the half cycle: that much is left of the time before.
    EXPECT_NEAR(meters.take_readings().line_voltage_rms.count(), 1600 * line_voltage_mV_per_count,
                0.025 * 1600 * line_voltage_mV_per_count);
}

}  // namespace
