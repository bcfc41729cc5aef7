// The voltage at S as a fraction of the line's: what tells of speed, whatever the line does.
#pragma once

#include <cstdint>

#include "firmware/arithmetic/quotient.hpp"
#include "firmware/measurement/meters.hpp"

namespace firmware {

/// In ten-thousandths of the line voltage; 0 without line, at most a hundred times the line.
constexpr std::int32_t start_terminal_level(const Readings& readings) {
    if (readings.line_voltage_rms.count() <= 0) {
        return 0;
    }
    const std::int64_t scaled =
        static_cast<std::int64_t>(readings.start_terminal_voltage_rms.count()) * 10000;
    const std::int64_t level = quotient(scaled, readings.line_voltage_rms.count());
    constexpr std::int64_t largest = 1000000;
    return static_cast<std::int32_t>(level > largest ? largest : level);
}

}  // namespace firmware
