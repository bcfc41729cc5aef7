// The names of the learning laws. A new law adds its name here and itself to learning_laws.hpp.
#pragma once

#include <cstdint>

namespace firmware {

enum class LearningLawKind : std::uint8_t {
    easing,  ///< eases the settings' ladder while that lowers the current
    none,    ///< every start climbs the settings' ladder
};

inline constexpr std::uint8_t learning_law_count = 2;

}  // namespace firmware
