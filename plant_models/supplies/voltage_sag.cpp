#include "plant_models/supplies/voltage_sag.hpp"

namespace plant_models {

VoltageSag::VoltageSag(const VoltageSagTimes& times) : times_(times) {
    if (times.to_share < 1.0) {
        enter(times.begin_s > 0.0 ? before : falling);
    }
}

void VoltageSag::pass_corner() {
    if (phase_ != over) {
        enter(static_cast<Phase>(phase_ + 1));
    }
}

void VoltageSag::enter(Phase phase) {
    // A fall that takes no time has no corner of its own.
    phase_ = phase == falling && times_.fall_s == 0.0 ? low : phase;
    at_zero_ = 1.0;
    per_second_ = 0.0;
    switch (phase_) {
        case before:
            next_corner_s_ = times_.begin_s;
            break;
        case falling:
            per_second_ = (times_.to_share - 1.0) / times_.fall_s;
            at_zero_ = 1.0 - per_second_ * times_.begin_s;
            next_corner_s_ = times_.begin_s + times_.fall_s;
            break;
        case low:
            at_zero_ = times_.to_share;
            next_corner_s_ = times_.begin_s + times_.length_s;
            break;
        case over:
            next_corner_s_ = never_s;
            break;
    }
}

}  // namespace plant_models
