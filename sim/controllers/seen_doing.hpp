// What a controller that does not tell its states is seen to do, as far as its frames show it.
#pragma once

#include <cstdint>

#include "firmware/contract/frames.hpp"
#include "firmware/sequence/state.hpp"

namespace sim {

enum class SeenDoing : std::uint8_t {
    off,                           ///< the contactor is not permitted; nothing fed since the call
    feeding,                       ///< contactor permitted, bypass out, start capacitor out
    feeding_with_start_capacitor,  ///< contactor permitted, bypass out, start capacitor in
    bypassed,                      ///< contactor permitted, bypass in
    let_go,                        ///< called, and off again after it had fed
    failed,                        ///< gives no proper answer any more; everything off
};

constexpr const char* name_of(SeenDoing doing) {
    switch (doing) {
        case SeenDoing::off:
            return "everything off";
        case SeenDoing::feeding:
            return "feeding";
        case SeenDoing::feeding_with_start_capacitor:
            return "feeding with the start capacitor";
        case SeenDoing::bypassed:
            return "bypass in";
        case SeenDoing::let_go:
            return "off again, though called";
        case SeenDoing::failed:
            return "failed, everything off";
    }
    return "";
}

/// `before`: of the tick before; `off` at first.
constexpr SeenDoing seen_doing(SeenDoing before, const firmware::ActuatorFrame& frame,
                               bool call_for_cooling) {
    if (frame.contactor_permit == 0) {
        return call_for_cooling && before != SeenDoing::off ? SeenDoing::let_go : SeenDoing::off;
    }
    // Permitted without a call, the contactor stays open.
    if (!call_for_cooling) {
        return SeenDoing::off;
    }
    if (frame.bypass_contact != 0) {
        return SeenDoing::bypassed;
    }
    return frame.start_capacitor_contact != 0 ? SeenDoing::feeding_with_start_capacitor
                                              : SeenDoing::feeding;
}

/// The state of our own controller in which the motor is treated the same way: what judges whether
/// it is fed asks for states.
constexpr firmware::State nearest_state(SeenDoing doing) {
    switch (doing) {
        case SeenDoing::off:
        case SeenDoing::failed:
            return firmware::State::resting;
        case SeenDoing::feeding:
        case SeenDoing::feeding_with_start_capacitor:
            return firmware::State::climbing;
        case SeenDoing::bypassed:
            return firmware::State::running;
        case SeenDoing::let_go:
            return firmware::State::backing_off;
    }
    return firmware::State::resting;
}

}  // namespace sim
