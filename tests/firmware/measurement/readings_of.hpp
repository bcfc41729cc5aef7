// Readings as a motor on a line would give them, for whatever judges by them.
#pragma once

#include <cstdint>

#include "firmware/measurement/readings.hpp"

namespace measurement_test {

inline firmware::Readings readings_of(std::int32_t start_terminal_mV, std::int32_t output_mA,
                                      std::int32_t line_mV) {
    firmware::Readings readings;
    readings.start_terminal_voltage_rms = firmware::MilliVolts{start_terminal_mV};
    readings.output_current_rms = firmware::MilliAmperes{output_mA};
    readings.line_voltage_rms = firmware::MilliVolts{line_mV};
    readings.relate_to_line();
    return readings;
}

}  // namespace measurement_test
