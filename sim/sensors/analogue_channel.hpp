// An analogue-to-digital channel: a physical value becomes counts, rounded and clipped.
#pragma once

#include <algorithm>
#include <cstdint>

#include "firmware/contract/sensor_scale.hpp"

namespace sim {

/// `counts_at_zero` is the reading at value 0.
inline std::uint16_t to_counts(double value, double counts_per_unit, double counts_at_zero) {
    const double counts = value * counts_per_unit + counts_at_zero;
    // Clipped first, the value is not negative: adding a half and cutting off rounds it.
    const double clipped = std::clamp(counts, 0.0, static_cast<double>(firmware::adc_maximum));
    return static_cast<std::uint16_t>(
        static_cast<int>(clipped + 0.5));  // NOLINT(bugprone-incorrect-roundings)
}

}  // namespace sim
