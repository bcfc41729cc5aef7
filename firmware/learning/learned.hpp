// What the controller has learned about the compressor that it is wired to.
#pragma once

#include <cstdint>

#include "firmware/units/units.hpp"

namespace firmware {

/// The level of the settings' own ladder, and the least and the most that any law may
/// learn.
inline constexpr Permille level_as_set{1000};
inline constexpr Permille lowest_level{100};
inline constexpr Permille highest_level{4000};

struct Learned {
    /// Of the next start's ladder: how much of the settings' first stage it begins with. 1000 is
    /// the settings' ladder as it is.
    Permille level = level_as_set;
    /// The level that drew the least of those that brought the rotor up in time; 0: none yet.
    Permille good;
    /// The highest level below it that did not, or that drew no less; 0: none known.
    Permille weak;
    /// The lowest level above it that drew no less; 0: none known.
    Permille strong;

    /// What was seen at the good level, at the output's own sensor.
    MilliAmperes inrush_at_good;  ///< largest RMS over about 100 ms
    MilliAmperes peak_at_good;
    std::int32_t climb_ms_at_good = 0;
    std::uint8_t stage_at_good = 0;  ///< in which the climb ended

    /// Of the motor that this was learned on; 0: nothing has been learned.
    MilliAmperes locked_rotor;
    /// While searching: starts since the search began. Settled: starts since it settled, or since
    /// it last tried a little less.
    std::uint8_t starts = 0;
    std::uint8_t misses = 0;  ///< settled starts in a row that were slow, or needed a later stage
    bool settled = false;

    bool is_fresh() const { return locked_rotor.count() == 0; }
};

}  // namespace firmware
