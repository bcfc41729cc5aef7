// How late an actuator frame acts: the frame that answers the samples of tick k drives the outputs
// from one tick after those samples' instant to two ticks after it (contract/frames.hpp).
#pragma once

#include <cstdint>

namespace firmware {

inline constexpr std::uint32_t output_delay_ticks = 1;

}  // namespace firmware
