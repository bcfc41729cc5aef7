// A sine that is evaluated many times near one instant: v(t) = A sin(w t + phase).
//
// `set_origin` keeps the phasor at an instant; `value` and `rate` turn it by w (t - origin) with
// Taylor polynomials. Within a quarter of a radian (0.6 ms at 60 Hz) their error stays below 1e-14
// of the amplitude, within a tenth below rounding; integration steps are shorter than that. A new
// origin is reached by turning the old one, and computed afresh every 32 turns, so that rounding
// never adds up.
#pragma once

#include <cmath>

#include "plant_models/numeric/units.hpp"

namespace plant_models {

class SineReference {
  public:
    SineReference(double amplitude, double frequency_Hz, double phase_deg)
        : amplitude_(amplitude),
          omega_rad_per_s_(2.0 * pi * frequency_Hz),
          own_frequency_Hz_(frequency_Hz),
          frequency_Hz_(frequency_Hz),
          phase_rad_(degrees_to_radians(phase_deg)) {
        compute_origin(0.0);
        set_origin(0.0);
    }

    /// Goes on from this instant with another frequency, in a share of the one it was made with,
    /// without a jump of phase.
    void set_frequency_share(double share, double time_s) {
        const double turns_before = frequency_Hz_ * time_s;
        frequency_Hz_ = share * own_frequency_Hz_;
        omega_rad_per_s_ = 2.0 * pi * frequency_Hz_;
        const double turns = turns_before - frequency_Hz_ * time_s;
        phase_rad_ += 2.0 * pi * (turns - std::floor(turns));
        compute_origin(time_s);
        set_origin(time_s);
    }

    void set_origin(double time_s) {
        const double turn = omega_rad_per_s_ * (time_s - origin_s_);
        if (turn >= 0.0 && turn < 0.1 && turns_since_fresh_ < 32) {
            const double sine = short_sine(turn);
            const double cosine = short_cosine(turn);
            const double before = sine_;
            sine_ = sine_ * cosine + cosine_ * sine;
            cosine_ = cosine_ * cosine - before * sine;
            origin_s_ = time_s;
            ++turns_since_fresh_;
        } else {
            compute_origin(time_s);
        }
        last_s_ = time_s;
        last_value_ = sine_;
    }

    double value(double time_s) const {
        // A Runge-Kutta step asks twice for its middle and twice for its end.
        if (time_s != last_s_) {
            const double d = omega_rad_per_s_ * (time_s - origin_s_);
            last_s_ = time_s;
            last_value_ = sine_ * short_cosine(d) + cosine_ * short_sine(d);
        }
        return last_value_;
    }
    double rate(double time_s) const {
        const double d = omega_rad_per_s_ * (time_s - origin_s_);
        return omega_rad_per_s_ * (cosine_ * short_cosine(d) - sine_ * short_sine(d));
    }
    double frequency_Hz() const { return frequency_Hz_; }

  private:
    void compute_origin(double time_s) {
        origin_s_ = time_s;
        turns_since_fresh_ = 0;
        // Whole turns are taken off before scaling, so that hours of simulated time cost no digits.
        const double turns = frequency_Hz_ * time_s;
        const double angle = 2.0 * pi * (turns - std::floor(turns)) + phase_rad_;
        sine_ = amplitude_ * std::sin(angle);
        cosine_ = amplitude_ * std::cos(angle);
    }

    static double short_sine(double d) {
        const double q = d * d;
        return d * (1.0 + q * (-1.0 / 6 + q * (1.0 / 120 + q * (-1.0 / 5040 + q / 362880))));
    }
    static double short_cosine(double d) {
        const double q = d * d;
        return 1.0 +
               q * (-0.5 + q * (1.0 / 24 + q * (-1.0 / 720 + q * (1.0 / 40320 - q / 3628800))));
    }

    double amplitude_;
    double omega_rad_per_s_;
    double own_frequency_Hz_;
    double frequency_Hz_;
    double phase_rad_;
    double origin_s_ = 0.0;
    double sine_ = 0.0;
    double cosine_ = 0.0;
    int turns_since_fresh_ = 0;
    mutable double last_s_ = 0.0;
    mutable double last_value_ = 0.0;
};

}  // namespace plant_models
