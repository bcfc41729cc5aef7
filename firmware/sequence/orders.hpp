// What the sequence wants from the outputs, before it becomes a frame.
#pragma once

#include "firmware/units/phase.hpp"
#include "firmware/units/units.hpp"

namespace firmware {

struct Orders {
    bool contactor_permit = false;
    bool start_capacitor = false;
    bool bypass = false;
    bool gated = false;         ///< fire every half cycle at `firing`
    MilliDegrees firing_angle;  ///< meaningful while gated
    HalfTurn firing;            ///< the same angle, as the gate timer takes it

    void fire_at(MilliDegrees angle) {
        gated = true;
        firing_angle = angle;
        firing = half_turn_from(angle);
    }

    void stop_firing() {
        gated = false;
        firing_angle = MilliDegrees{0};
        firing = HalfTurn{};
    }

    void all_off() { *this = Orders{}; }
};

}  // namespace firmware
