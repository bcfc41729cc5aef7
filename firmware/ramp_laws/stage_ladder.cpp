#include "firmware/ramp_laws/stage_ladder.hpp"

namespace firmware {

StageLadder::StageLadder(const Settings& settings) : ladder_(factory_ladder(settings)) {}

RampOrder StageLadder::begin() {
    stage_ = 0;
    return order(RampVerdict::climb);
}

RampOrder StageLadder::step(const RampView& view) {
    const bool dwell_over = view.in_stage >= ladder_.stages[stage_].dwell;
    if (view.up || (view.near_speed && dwell_over && !view.accelerating)) {
        return order(RampVerdict::hand_over);
    }
    // Waiting out the dwell would only heat a rotor that has nothing more to gain here.
    const bool stuck_halfway = view.turning && view.settled;
    const bool leave = stuck_halfway || (dwell_over && !view.accelerating);
    if (!leave) {
        return order(RampVerdict::climb);
    }
    if (stage_ + 1 >= ladder_.count) {
        // Nothing stronger is left. The dwell is given in full, and a rotor that turns is given
        // what the climb as a whole allows.
        return order(dwell_over && !view.turning ? RampVerdict::give_up : RampVerdict::climb);
    }
    ++stage_;
    return order(RampVerdict::climb);
}

RampOrder StageLadder::order(RampVerdict verdict) const {
    return {ladder_.stages[stage_].target, static_cast<std::uint8_t>(stage_), verdict};
}

}  // namespace firmware
