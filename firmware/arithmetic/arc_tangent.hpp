// The phase of a vector: for (a*cos p, a*sin p) the phase p, for any a > 0.
//
// CORDIC in vectoring mode (J. E. Volder, 1959; memory): the vector is turned onto the axis by ever
// smaller angles whose tangents are powers of two. Error below 0.01 degree for vectors longer than
// 2,000 counts. A zero vector gives phase 0. Components up to +-2^29.
#pragma once

#include <cstdint>

#include "firmware/units/phase.hpp"

namespace firmware {

Phase phase_of_vector(std::int32_t cosine_part, std::int32_t sine_part);

}  // namespace firmware
