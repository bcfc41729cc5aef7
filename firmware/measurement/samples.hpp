// One tick's samples, taken out of the sensor frame: centred on zero, and tamed.
//
// Counts beyond the converter's 12 bits cannot come from a sound converter; they are read as full
// scale. A call is exactly the value 1. A frame of another version is not understood: it reads as
// zero signals and no call, which makes the controller switch everything off.
#pragma once

#include <cstdint>

#include "firmware/contract/frames.hpp"
#include "firmware/contract/sensor_scale.hpp"

namespace firmware {

struct Samples {
    std::int32_t line_voltage_counts = 0;  ///< -2048 to 2047, and so the others
    std::int32_t output_current_counts = 0;
    std::int32_t start_terminal_voltage_counts = 0;
    bool call = false;
};

constexpr std::int32_t centred(std::uint16_t counts) {
    const auto reading = static_cast<std::int32_t>(counts);
    return (reading > adc_maximum ? adc_maximum : reading) - adc_midpoint;
}

constexpr Samples samples_from(const SensorFrame& frame) {
    Samples samples;
    if (frame.version == frame_version) {
        samples.line_voltage_counts = centred(frame.line_voltage_counts);
        samples.output_current_counts = centred(frame.output_current_counts);
        samples.start_terminal_voltage_counts = centred(frame.start_terminal_voltage_counts);
        samples.call = frame.call_for_cooling == 1;
    }
    return samples;
}

}  // namespace firmware
