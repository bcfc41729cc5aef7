// The usual ramp: a few stages of constant firing angle, each stronger than the one before.
//
// Exit rules of a stage, in this order:
//   the rotor is up                                        -> hand over
//   the dwell is over, it is near speed and gains no more  -> hand over
//   it turns but has settled below that                    -> next stage, without waiting, unless
//                                                             the stage is a patient one
//   the dwell is over and it does not gain speed           -> next stage
//   the dwell is over and it gains speed                   -> stay; the climb's limits bound this
// The last stage has no next one: a rotor that does not turn when its dwell is over is given up,
// one that turns may stay.
#pragma once

#include <cstddef>

#include "firmware/ramp_laws/ladder.hpp"
#include "firmware/ramp_laws/ramp_law.hpp"
#include "firmware/settings/settings.hpp"

namespace firmware {

class StageLadder {
  public:
    explicit StageLadder(const Settings& settings);

    /// The ladder of the climbs to come, in place of the settings'.
    void use(const Ladder& ladder) { ladder_ = ladder; }

    RampOrder begin();
    RampOrder step(const RampView& view);

  private:
    friend class Watch;

    RampOrder order(RampVerdict verdict) const;

    Ladder ladder_;
    std::size_t stage_ = 0;
};

}  // namespace firmware
