#include "firmware/measurement/samples.hpp"

#include <gtest/gtest.h>

namespace {

using namespace firmware;

SensorFrame resting_frame() {
    SensorFrame frame;
    frame.line_voltage_counts = 2048;
    frame.output_current_counts = 2048;
    frame.start_terminal_voltage_counts = 2048;
    return frame;
}

TEST(Samples, TheMidpointReadsAsZero) {
    const Samples samples = samples_from(resting_frame());
    EXPECT_EQ(samples.line_voltage_counts, 0);
    EXPECT_EQ(samples.output_current_counts, 0);
    EXPECT_EQ(samples.start_terminal_voltage_counts, 0);
    EXPECT_FALSE(samples.call);
}

TEST(Samples, EachChannelKeepsItsSign) {
    SensorFrame frame = resting_frame();
    frame.line_voltage_counts = 2049;
    frame.output_current_counts = 2050;
    frame.start_terminal_voltage_counts = 2046;
    const Samples samples = samples_from(frame);
    EXPECT_EQ(samples.line_voltage_counts, 1);
    EXPECT_EQ(samples.output_current_counts, 2);
    EXPECT_EQ(samples.start_terminal_voltage_counts, -2);
}

TEST(Samples, CountsBeyondTheConverterReadAsFullScale) {
    SensorFrame frame = resting_frame();
    frame.line_voltage_counts = 0xFFFF;
    EXPECT_EQ(samples_from(frame).line_voltage_counts, 2047);
}

TEST(Samples, OnlyExactlyOneIsACall) {
    SensorFrame frame = resting_frame();
    for (const int value : {0, 2, 3, 0x100, 0xFFFF}) {
        frame.call_for_cooling = static_cast<std::uint16_t>(value);
        EXPECT_FALSE(samples_from(frame).call) << value;
    }
    frame.call_for_cooling = 1;
    EXPECT_TRUE(samples_from(frame).call);
}

// Covers: CT-04
TEST(Samples, AFrameOfAnotherVersionIsNoCall) {
    SensorFrame frame = resting_frame();
    frame.call_for_cooling = 1;
    frame.line_voltage_counts = 4000;
    frame.version = frame_version + 1;
    EXPECT_FALSE(samples_from(frame).call);
    EXPECT_EQ(samples_from(frame).line_voltage_counts, 0);
}

}  // namespace
