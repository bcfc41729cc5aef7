// When the inverter gives up on an overload. I^2 is the 20 ms mean of the output current's square.
//
//   definite_time   dt_o/dt = 1 while I > I_r, else -1       trips at overload_time_s
//   inverse_time    dt_o/dt = (I^2 - I_r^2) / (I_s^2 - I_r^2) trips at surge_time_s
//
// t_o never falls below 0. By the second law the surge rating lasts its time exactly, the
// continuous rating for ever, and twice the excess heat half as long. The delay of the mean comes
// on top: 20 ms after a step from the continuous rating.
//
//   I_r  rated_current_A     I_s  surge_power_W / voltage_V
//
// Source: the inverse law is that of a thermal-image relay without losses below the rating
// (recalled, not seen).
#pragma once

#include "plant_models/numeric/select.hpp"
#include "plant_models/supplies/inverter/parameters.hpp"

namespace plant_models {

class OverloadTimer {
  public:
    explicit OverloadTimer(const InverterParameters& completed)
        : inverse_(completed.overload_law == "inverse_time"),
          rated_square_A2_(completed.rated_current_A * completed.rated_current_A),
          limit_s_(inverse_ ? completed.surge_time_s : completed.overload_time_s) {
        if (inverse_) {
            const double surge_A = completed.surge_power_W / completed.voltage_V;
            rate_per_A2_ = 1.0 / (surge_A * surge_A - rated_square_A2_);
        }
    }

    double rate(double timer_s, double mean_square_A2) const {
        if (inverse_) {
            const double excess_A2 = mean_square_A2 - rated_square_A2_;
            return select(excess_A2 > 0.0 || timer_s > 0.0, rate_per_A2_ * excess_A2, 0.0);
        }
        return select(mean_square_A2 > rated_square_A2_, 1.0, select(timer_s > 0.0, -1.0, 0.0));
    }
    /// Kink: the rating is passed.
    double room_A2(double mean_square_A2) const { return rated_square_A2_ - mean_square_A2; }
    /// Plain guard: it trips.
    double left_s(double timer_s) const { return limit_s_ - timer_s; }

  private:
    bool inverse_;
    double rated_square_A2_;
    double limit_s_;
    double rate_per_A2_ = 0.0;
};

}  // namespace plant_models
