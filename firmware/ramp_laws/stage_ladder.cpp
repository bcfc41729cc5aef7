#include "firmware/ramp_laws/stage_ladder.hpp"

namespace firmware {

StageLadder::StageLadder(const Settings& settings)
    : stage_count_(static_cast<std::size_t>(settings.stage_count)) {
    for (std::size_t i = 0; i < stages_.size(); ++i) {
        stages_[i] = {Permille{settings.stages[i].target_permille},
                      ticks_from_ms(settings.stages[i].dwell_ms)};
    }
}

RampOrder StageLadder::begin() {
    stage_ = 0;
    return order(RampVerdict::climb);
}

RampOrder StageLadder::step(const RampView& view) {
    const bool dwell_over = view.in_stage >= stages_[stage_].dwell;
    if (view.up || (view.near_speed && dwell_over && !view.accelerating)) {
        return order(RampVerdict::hand_over);
    }
    // Waiting out the dwell would only heat a rotor that has nothing more to gain here.
    const bool stuck_halfway = view.turning && view.settled;
    const bool leave = stuck_halfway || (dwell_over && !view.accelerating);
    if (!leave) {
        return order(RampVerdict::climb);
    }
    if (stage_ + 1 >= stage_count_) {
        // Nothing stronger is left. The dwell is given in full, and a rotor that turns is given
        // what the climb as a whole allows.
        return order(dwell_over && !view.turning ? RampVerdict::give_up : RampVerdict::climb);
    }
    ++stage_;
    return order(RampVerdict::climb);
}

RampOrder StageLadder::order(RampVerdict verdict) const {
    return {stages_[stage_].target, static_cast<std::uint8_t>(stage_), verdict};
}

}  // namespace firmware
