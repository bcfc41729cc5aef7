// A trapezoidal dip of a grid's voltage: it falls, stays low and returns at once.
//
//   share of the voltage
//   1 ----.                ,----
//          \               |
//   to      '--------------'
//        begin  fall   begin + length
//
// Each corner is an event: between two of them the share is one straight line a + b t, chosen by
// the last event and not by the clock, so no integration step ever sees a corner or the jump at the
// end. Without a sag it is 1 + 0 t, which leaves the voltage as it is to the last bit.
#pragma once

namespace plant_models {

struct VoltageSagTimes {
    double begin_s = 0.0;
    double fall_s = 0.0;    ///< 0: it falls at once
    double length_s = 0.0;  ///< from the begin of the fall to the return
    double to_share = 1.0;  ///< 1: there is no sag
};

class VoltageSag {
  public:
    explicit VoltageSag(const VoltageSagTimes& times);

    double share(double time_s) const { return at_zero_ + per_second_ * time_s; }
    /// Positive until the next corner, which it reaches at zero.
    double until_next_corner_s(double time_s) const { return next_corner_s_ - time_s; }
    void pass_corner();

  private:
    enum Phase { before, falling, low, over };
    void enter(Phase phase);

    static constexpr double never_s = 1e12;

    VoltageSagTimes times_;
    Phase phase_ = over;
    double at_zero_ = 1.0;
    double per_second_ = 0.0;
    double next_corner_s_ = never_s;
};

}  // namespace plant_models
