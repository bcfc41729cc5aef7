// How a current is shared between the two half waves, and whether it leads or lags the line.
//
// The RMS value hides which thyristor carries a current and what kind of current it is. These means
// over the last full cycle tell:
//
//     positive, negative   mean of the current's positive and of its negative part, both >= 0
//     leading              mean of the current, counted negative in the middle half of each turn:
//                          positive for a capacitor's current, negative for a motor's
//
// Refreshed every half cycle like the RMS values. A quarter turn of the line's tracked phase
// decides the sign of `leading`: cheap, and its size is that of the quadrature part times 0.9 for a
// sine.
#pragma once

#include <cstdint>

#include "firmware/units/phase.hpp"
#include "firmware/units/units.hpp"

namespace firmware {

struct HalfWaveMeans {
    MilliAmperes positive;
    MilliAmperes negative;
    MilliAmperes leading;
};

class HalfWaves {
  public:
    /// Takes a sample of -2048 to 2047 counts, taken at the given phase of the line. At most 1,000
    /// samples per half cycle count.
    void add(std::int32_t counts, Phase phase);

    /// Ends the half cycle under way; all zero before two halves are there.
    HalfWaveMeans close_half_cycle(std::int32_t scale_per_count);

  private:
    friend class Watch;

    struct Sums {
        std::int32_t samples = 0;
        std::int32_t positive = 0;
        std::int32_t negative = 0;
        std::int32_t leading = 0;
    };
    Sums current_;
    Sums previous_;
};

}  // namespace firmware
