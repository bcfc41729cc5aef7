// An analogue-to-digital channel: a physical value becomes counts, rounded and clipped.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "firmware/contract/sensor_scale.hpp"

namespace sim {

/// `value` and `per_count` in the same unit; `counts_at_zero` is the reading at value 0.
inline std::uint16_t to_counts(double value, double per_count, double counts_at_zero) {
    const double counts = std::floor(value / per_count + counts_at_zero + 0.5);
    return static_cast<std::uint16_t>(
        std::clamp(counts, 0.0, static_cast<double>(firmware::adc_maximum)));
}

}  // namespace sim
