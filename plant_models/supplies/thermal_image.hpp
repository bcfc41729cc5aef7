// Inverse-time protection: an electronic or bimetal image of how hot the protected thing is.
//
//   T dh/dt = (i / I_r)^2 - h         trips at h = 1.10
//
// h = 1 is the end value at the rated current, so the rated current never trips it, and neither
// does 1.04 times that. From cold, a constant current I trips after T ln(s^2 / (s^2 - 1.10)) with
// s = I / I_r (the usual form of thermal overload relays, IEC 60255-149; recalled, not seen); from
// warm, sooner. T is chosen so that the surge current trips after exactly the surge time. The
// square of the instantaneous current is integrated: a sine counts by its RMS, and the ripple at
// twice its frequency moves the trip by 1.3 ms at most (at 60 Hz).
#pragma once

#include <cmath>

#include "plant_models/numeric/relaxation.hpp"

namespace plant_models {

class ThermalImage {
  public:
    static constexpr double trip_level = 1.10;
    /// Least surge / rated for which `surge_time_s` is a sensible figure.
    static constexpr double least_surge_ratio = 1.10;

    /// Trips after `surge_time_s` at `surge_A`, from cold. Both currents are RMS.
    ThermalImage(double rated_A, double surge_A, double surge_time_s)
        : heat_per_A2_(1.0 / (rated_A * rated_A)) {
        const double square = surge_A * surge_A * heat_per_A2_;
        inverse_time_per_s_ = std::log(square / (square - trip_level)) / surge_time_s;
    }

    double rate_per_s(double heat, double current_A) const {
        return inverse_time_per_s_ * (heat_per_A2_ * current_A * current_A - heat);
    }
    /// After a time with a constant current.
    double later(double heat, double current_A, double duration_s) const {
        return relaxed(heat, heat_per_A2_ * current_A * current_A, 1.0 / inverse_time_per_s_,
                       duration_s);
    }
    /// Positive until it trips.
    static double margin(double heat) { return trip_level - heat; }
    static double percent_of_trip(double heat) { return (100.0 / trip_level) * heat; }

  private:
    double heat_per_A2_;
    double inverse_time_per_s_;
};

}  // namespace plant_models
