// Time on the timeline: an integer count of nanoseconds since the run began.
#pragma once

#include <chrono>

namespace plant_models {

using Instant = std::chrono::nanoseconds;

inline constexpr Instant never = Instant::max();

constexpr double to_seconds(Instant instant) {
    return 1e-9 * static_cast<double>(instant.count());
}

}  // namespace plant_models
