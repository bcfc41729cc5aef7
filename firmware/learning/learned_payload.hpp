// What has been learned as the words that the memory keeps, and back.
//
//   word 0   level, good                 permille, 16 bits each, the first in the lower half
//   word 1   weak; climb                 permille; ms at the good level
//   word 2   inrush at the good level;   mA, 20 bits from below;
//            strong                      permille, 12 bits
//   word 3   peak at the good level      mA
//   word 4   locked-rotor estimate       mA
//   word 5   starts, misses, settled,    8, 8, 1 and 3 bits from below; the upper byte stays 0,
//            stage at the good level     for it is the rest mark's (memory/rest_mark.hpp)
//
// A record may be whole and yet old or foolish: what does not make sense together is not taken
// over, and the first start is then that of a fresh controller. Limits are never in it.
#pragma once

#include "firmware/learning/learned.hpp"
#include "firmware/memory/record.hpp"

namespace firmware {

Payload payload_of(const Learned& learned);

/// True if it makes sense; `learned` is only then written.
bool learned_from(const Payload& payload, Learned& learned);

}  // namespace firmware
