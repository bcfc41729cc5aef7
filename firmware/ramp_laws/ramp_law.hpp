// What passes between a ramp law and the climb that asks it, once per half cycle.
//
// A ramp law decides how much current the main winding gets while the rotor comes up, and when it
// is up or hopeless. It sees no clock but the time in its stage and touches no output, so one law
// can replace another without a change in the state machine. A law is a class with
//
//     explicit Law(const Settings&);
//     RampOrder begin();                    the first order of a climb
//     RampOrder step(const RampView&);      once per half cycle
//
// in a file of its own, entered in ramp_law_kind.hpp and ramp_law_list.hpp.
#pragma once

#include <cstdint>

#include "firmware/units/units.hpp"

namespace firmware {

/// What a law may know.
struct RampView {
    Ticks in_stage;             ///< since its order last named a new stage
    bool turning = false;       ///< the rotor surely moves
    bool accelerating = false;  ///< it gains speed right now
    bool settled = false;       ///< it has stopped gaining speed
    bool near_speed = false;    ///< it is near synchronous speed, if it can gain no more
    bool up = false;            ///< it surely is
};

enum class RampVerdict : std::uint8_t {
    climb,      ///< go on with the order
    hand_over,  ///< the rotor is up
    give_up,    ///< nothing is left to try
};

struct RampOrder {
    Permille target;         ///< of the locked-rotor current at full conduction
    std::uint8_t stage = 0;  ///< from 0
    RampVerdict verdict = RampVerdict::climb;
};

}  // namespace firmware
