// What the controller knows of the line and the motor: readings over the last full cycle that
// change once per half cycle.
#pragma once

#include <cstdint>

#include "firmware/measurement/half_waves.hpp"
#include "firmware/units/units.hpp"

namespace firmware {

struct Readings {
    MilliVolts line_voltage_rms;            ///< L1 to C
    MilliAmperes output_current_rms;        ///< main winding plus start capacitor
    MilliVolts start_terminal_voltage_rms;  ///< S to C
    MilliAmperes output_current_peak;       ///< of the half cycle that has just ended
    MilliVolts run_capacitor_voltage_rms;   ///< L1 to S
    HalfWaveMeans output_current;
    std::int32_t output_current_offset_counts = 0;  ///< mean; 0 from a sound sensor
    std::int32_t start_terminal_offset_counts = 0;  ///< the same

    // What tells of speed, whatever the line does: related to the line's voltage; 0 without line.
    /// Voltage at S, in ten-thousandths of the line's; at most a hundred times the line.
    std::int32_t start_terminal_level = 0;
    /// Output current over line voltage, in micro-siemens; at most 1,000 S.
    std::int32_t output_per_line_uS = 0;

    /// Works out these two from the others.
    void relate_to_line();
};

}  // namespace firmware
