// All learning laws, behind one face, with what has been learned. A new law adds a member, and a
// case in each of the two functions.
#pragma once

#include "firmware/learning/easing.hpp"
#include "firmware/learning/learned.hpp"
#include "firmware/learning/learning_law_kind.hpp"
#include "firmware/learning/start_report.hpp"
#include "firmware/ramp_laws/ladder.hpp"
#include "firmware/settings/settings.hpp"

namespace firmware {

class LearningLaws {
  public:
    explicit LearningLaws(const Settings& settings)
        : chosen_(settings.learning_law),
          factory_(factory_ladder(settings)),
          easing_(settings),
          learned_(Easing::fresh()) {}

    /// The ladder for a motor that probing has just measured. A line that the start capacitor lifts
    /// needs the main winding's lagging current to come down again: it gets no eased ladder.
    Ladder ladder_for(MilliAmperes locked_rotor, bool line_lifted) const {
        if (line_lifted && learned_.level < level_as_set) {
            return factory_;
        }
        switch (chosen_) {
            case LearningLawKind::easing:
                return easing_.ladder_for(learned_, locked_rotor);
            case LearningLawKind::none:
                break;
        }
        return factory_;
    }

    void start_ended(const StartReport& report) {
        switch (chosen_) {
            case LearningLawKind::easing:
                learned_ = easing_.after(learned_, report);
                break;
            case LearningLawKind::none:
                break;
        }
    }

    const Learned& learned() const { return learned_; }
    /// What an earlier life has learned.
    void remember(const Learned& learned) { learned_ = learned; }

  private:
    friend class Watch;

    LearningLawKind chosen_;
    Ladder factory_;
    Easing easing_;
    Learned learned_;
};

}  // namespace firmware
