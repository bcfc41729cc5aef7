// Sine and cosine of a phase, as integers with 32767 for one.
//
// A quarter wave of 257 values, made at compile time by an integer Taylor series, with linear
// interpolation between them. The largest error is 1.1 counts (3.4e-5), where rounding of the table
// and of the interpolation add up; the chord itself misses the curve by 0.15 counts.
#pragma once

#include <cstdint>

#include "firmware/units/phase.hpp"

namespace firmware {

inline constexpr std::int32_t sine_one = 32767;

std::int32_t sine(Phase phase);

inline std::int32_t cosine(Phase phase) {
    return sine(phase.advanced(PhaseStep{0x40000000U}));
}

}  // namespace firmware
