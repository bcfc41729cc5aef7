// All ramp laws, behind one face. A new law adds a member, and a case in each of the two functions.
//
// One of each is kept (a few dozen bytes); only the chosen one is asked.
#pragma once

#include "firmware/ramp_laws/ladder.hpp"
#include "firmware/ramp_laws/ramp_law.hpp"
#include "firmware/ramp_laws/ramp_law_kind.hpp"
#include "firmware/ramp_laws/stage_ladder.hpp"
#include "firmware/settings/settings.hpp"

namespace firmware {

class RampLaws {
  public:
    explicit RampLaws(const Settings& settings)
        : chosen_(settings.ramp_law), stage_ladder_(settings) {}

    /// The ladder of the climbs to come; a law without stages would make of it what it can.
    void use(const Ladder& ladder) { stage_ladder_.use(ladder); }

    RampOrder begin() {
        switch (chosen_) {
            case RampLawKind::stage_ladder:
                return stage_ladder_.begin();
        }
        return nothing_to_try;
    }

    RampOrder step(const RampView& view) {
        switch (chosen_) {
            case RampLawKind::stage_ladder:
                return stage_ladder_.step(view);
        }
        return nothing_to_try;
    }

  private:
    friend class Watch;

    // Only reached with settings that check() refuses, and those never start a climb.
    static constexpr RampOrder nothing_to_try{Permille{0}, 0, RampVerdict::give_up};

    RampLawKind chosen_;
    StageLadder stage_ladder_;
};

}  // namespace firmware
