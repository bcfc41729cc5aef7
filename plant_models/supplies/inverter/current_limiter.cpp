#include "plant_models/supplies/inverter/current_limiter.hpp"

#include <algorithm>

#include "plant_models/numeric/units.hpp"

namespace plant_models {

namespace {
/// Of the limit; wider than rounding.
constexpr double hold_band = 1e-6;
/// Of the limit: hysteresis of the comparator that lets the switches go again (engineering
/// judgement). Without it a loop that hovers at the limit would be held and let go endlessly.
constexpr double release_band = 0.01;
}  // namespace

CurrentLimiter::Method CurrentLimiter::method_of(std::string_view word) {
    if (word == "switch_clamp") {
        return Method::switch_clamp;
    }
    if (word == "virtual_impedance") {
        return Method::virtual_impedance;
    }
    return word == "voltage_foldback" ? Method::voltage_foldback : Method::reference_clamp;
}

CurrentLimiter::CurrentLimiter(const InverterParameters& completed)
    : method_(method_of(completed.limiting_method)),
      clamps_(method_ != Method::switch_clamp),
      lowers_voltage_(completed.limits_by_voltage()),
      limit_A_(completed.peak_current_limit_A),
      limited_current_A_(completed.limited_current_A),
      threshold_A_(completed.virtual_threshold_A),
      threshold_square_A2_(threshold_A_ * threshold_A_),
      gain_ohm_per_A_(completed.voltage_V /
                      (limited_current_A_ * (limited_current_A_ - threshold_A_))),
      resistive_share_(std::cos(degrees_to_radians(completed.virtual_impedance_angle_deg))),
      inductive_share_(std::sin(degrees_to_radians(completed.virtual_impedance_angle_deg))),
      omega_rad_per_s_(2.0 * pi * completed.frequency_Hz),
      foldback_rate_per_s_(1e3 / completed.foldback_time_ms) {}

std::array<double, CurrentLimiter::state_count> CurrentLimiter::initial_state() const {
    std::array<double, state_count> x{};
    if (method_ == Method::voltage_foldback) {
        x[voltage_share] = 1.0;
    }
    return x;
}

double CurrentLimiter::lowered_V(double reference_V, double line_current_A, const double* x) const {
    if (method_ == Method::voltage_foldback) {
        return x[voltage_share] * reference_V;
    }
    const double square = magnitude_square(x);
    if (square <= threshold_square_A2_) {
        return reference_V;
    }
    return reference_V - gain_ohm_per_A_ * (std::sqrt(square) - threshold_A_) *
                             (resistive_share_ * line_current_A +
                              inductive_share_ * filtered_slope_A(x, line_current_A));
}

void CurrentLimiter::lowering_derivatives(const double* x, double* dxdt, double line_current_A,
                                          double mean_square_A2) const {
    if (method_ == Method::virtual_impedance) {
        dxdt[filtered_current] = omega_rad_per_s_ * filtered_slope_A(x, line_current_A);
        dxdt[quadrature_current] = omega_rad_per_s_ * x[filtered_current];
    } else {
        const double current_A = std::sqrt(select(mean_square_A2 > 0.0, mean_square_A2, 0.0));
        const double rate =
            foldback_rate_per_s_ * x[voltage_share] * (1.0 - current_A / limited_current_A_);
        dxdt[voltage_share] = select(rate < 0.0 || x[voltage_share] < 1.0, rate, 0.0);
    }
}

double CurrentLimiter::softening_room_A2(const double* x, double mean_square_A2) const {
    switch (method_) {
        case Method::virtual_impedance:
            return threshold_square_A2_ - magnitude_square(x);
        case Method::voltage_foldback:
            return limited_current_A_ * limited_current_A_ - mean_square_A2;
        default:
            return 1.0;
    }
}

double CurrentLimiter::hold_begins_A(double wanted_A, double inductor_current_A) const {
    if (clamps_ || held_ != 0.0) {
        return 1.0;
    }
    const double sign = select(inductor_current_A > 0.0, 1.0, -1.0);
    return std::max(limit_A_ - magnitude(inductor_current_A),
                    sign * (inductor_current_A - wanted_A));
}

double CurrentLimiter::limiting_ends(const double* x, double wanted_A,
                                     double inductor_current_A) const {
    if (method_ == Method::voltage_foldback) {
        return x[voltage_share] == 1.0 ? 1.0 : 1.0 - x[voltage_share];
    }
    if (held_ == 0.0) {
        return 1.0;
    }
    // An output voltage above the bus can take the current away from the limit all the same.
    return std::min(held_ * (wanted_A - inductor_current_A) + release_band * limit_A_,
                    held_ * inductor_current_A - (1.0 - hold_band) * limit_A_);
}

void CurrentLimiter::end_limiting(double* x) {
    held_ = 0.0;
    if (method_ == Method::voltage_foldback) {
        x[voltage_share] = 1.0;
    }
}

bool CurrentLimiter::settled(const double* x) const {
    constexpr double hardly_any_A2 = 1e-3;
    return held_ == 0.0 &&
           (method_ == Method::voltage_foldback ? x[voltage_share] == 1.0
                                                : magnitude_square(x) < hardly_any_A2);
}

void CurrentLimiter::rest(double* x, double duration_s) const {
    if (method_ == Method::voltage_foldback) {
        return;  // whole, or it were not settled
    }
    // Both poles of the band pass have this real part.
    const double kept = std::exp(-0.5 * band_pass_gain * omega_rad_per_s_ * duration_s);
    x[filtered_current] *= kept;
    x[quadrature_current] *= kept;
}

bool CurrentLimiter::active(const double* x, double wanted_A) const {
    switch (method_) {
        case Method::switch_clamp:
            return held_ != 0.0;
        case Method::virtual_impedance:
            return magnitude_square(x) > threshold_square_A2_ || magnitude(wanted_A) > limit_A_;
        case Method::voltage_foldback:
            return x[voltage_share] < 1.0 || magnitude(wanted_A) > limit_A_;
        default:
            return magnitude(wanted_A) > limit_A_;
    }
}

}  // namespace plant_models
