// What the controller has learned about the compressor that it is wired to.
#pragma once

#include <cstdint>

#include "firmware/units/units.hpp"

namespace firmware {

struct Learned {
    /// First stage of the next start's ladder; 0: the settings' ladder as it is.
    Permille level;
    /// The lowest level that brought the rotor up in time, from its first stage; 0: none yet.
    Permille good;
    /// The highest level that did not, or that brought nothing; 0: none known.
    Permille weak;
    /// Target of the stage in which the settings' ladder brought the rotor up: what a trial falls
    /// back on while no level is known to be good.
    Permille sure;
    MilliAmperes inrush_at_good;      ///< at the output's sensor; 0: none yet
    MilliAmperes inrush_of_settings;  ///< the same on the settings' ladder
    /// Of the motor that this was learned on; 0: nothing has been learned.
    MilliAmperes locked_rotor;
    /// While searching: starts since the search began. Settled: starts since it settled, or since
    /// it last tried a little less.
    std::uint8_t starts = 0;
    std::uint8_t misses = 0;  ///< settled starts in a row that needed a later stage
    bool settled = false;

    bool is_fresh() const { return locked_rotor.count() == 0; }
};

}  // namespace firmware
