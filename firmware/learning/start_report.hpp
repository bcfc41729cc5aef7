// What the controller saw of one start, at its own sensors.
#pragma once

#include <cstdint>

#include "firmware/sequence/state.hpp"
#include "firmware/units/units.hpp"

namespace firmware {

struct StartReport {
    Reason ended = Reason::none;  ///< none: the rotor came up and the bypass took over
    std::uint8_t stage = 0;       ///< of the ladder, from 0: the one in which the climb ended
    MilliAmperes locked_rotor;    ///< estimate of probing
    MilliAmperes inrush;          ///< largest RMS over about 100 ms
    MilliAmperes peak;
    std::int32_t climb_ms = 0;  ///< from the first pulse of the climb to its end

    bool came_up() const { return ended == Reason::none; }
};

/// Whether a start ended because the line gave way, perhaps under the very current of the start.
constexpr bool line_gave_way(Reason ended) {
    return ended == Reason::line_sagged;
}

/// Whether a start ended because the ladder was too weak for the rotor, and not because of the
/// line, the call or a fault.
constexpr bool ladder_was_too_weak(Reason ended) {
    return ended == Reason::stages_used_up || ended == Reason::climb_too_long ||
           ended == Reason::start_capacitor_limit || ended == Reason::not_up_on_full_line;
}

}  // namespace firmware
