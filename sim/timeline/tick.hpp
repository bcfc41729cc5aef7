// The controller's tick on the timeline.
#pragma once

#include <cmath>
#include <cstdint>

#include "firmware/contract/frames.hpp"
#include "plant_models/numeric/instant.hpp"

namespace sim {

using plant_models::Instant;

/// 100 us, the controller's tick.
inline constexpr Instant tick_length{1000LL * firmware::tick_length_us};

/// Ticks until a time has passed; a time that is a whole number of ticks up to rounding is that
/// number.
inline std::int64_t to_ticks(double time_s) {
    return static_cast<std::int64_t>(std::ceil(time_s * firmware::ticks_per_second - 1e-6));
}

}  // namespace sim
