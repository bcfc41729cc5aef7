// Time on the timeline: an integer count of nanoseconds since the run began.
#pragma once

#include <chrono>
#include <cmath>

namespace plant_models {

using Instant = std::chrono::nanoseconds;

inline constexpr Instant never = Instant::max();

constexpr double to_seconds(Instant instant) {
    return 1e-9 * static_cast<double>(instant.count());
}

/// The first instant that is not before a time.
inline Instant instant_at_or_after(double time_s) {
    return Instant(static_cast<Instant::rep>(std::ceil(1e9 * time_s)));
}

}  // namespace plant_models
