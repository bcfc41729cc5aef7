// The names of the ramp laws. A new law adds its name here and itself to ramp_law_list.hpp.
#pragma once

#include <cstdint>

namespace firmware {

enum class RampLawKind : std::uint8_t {
    stage_ladder,  ///< a few stages of constant firing angle
};

inline constexpr std::uint8_t ramp_law_count = 1;

}  // namespace firmware
