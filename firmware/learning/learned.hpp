// What the controller has learned about the compressor that it is wired to.
#pragma once

#include <cstdint>

#include "firmware/units/units.hpp"

namespace firmware {

struct Learned {
    /// First stage of the next start's ladder.
    Permille level;
    /// The lowest level that brought the rotor up in time, from its first stage; 0: none yet.
    Permille good;
    /// The highest level that did not, or that brought nothing; 0: none known.
    Permille weak;
    /// At the output's sensor, in the start on `good`; 0: none yet.
    MilliAmperes inrush_at_good;
    /// Of the motor that this was learned on; 0: nothing has been learned.
    MilliAmperes locked_rotor;
    /// While searching: starts since the search began. Settled: starts since it settled, or since
    /// it last tried a little less.
    std::uint8_t starts = 0;
    bool settled = false;

    bool is_fresh() const { return locked_rotor.count() == 0; }
};

}  // namespace firmware
