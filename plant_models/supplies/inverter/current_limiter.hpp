// How the inverter keeps its current within bounds: one of four methods.
//
//   reference_clamp     i* = clamp(i_w, -I, +I): the current loop is told of the limit
//   switch_clamp        i* = i_w, but when |i_L| reaches I the switches are held so that it cannot
//                       grow (averaged: the bridge gives v_C + R i_L, a sliding motion on the
//                       limit) until the loop itself asks for 1 % less (the comparator's
//                       hysteresis), or until an output voltage above the bus has taken the
//                       current off the limit; the voltage loop knows nothing but that it happens,
//                       and stops its resonant part meanwhile
//   virtual_impedance   v* = v_0 - k (I_o - I_t) (cos a  i_o + sin a  di_o/d(w t)) while the output
//                       current's magnitude I_o exceeds the threshold I_t
//   voltage_foldback    v* = m v_0,  dm/dt = m / T (1 - I_rms / I_f),  m <= 1
//
// The latter two act through the voltage and are slower than a fault: i_w is clamped besides, as
// by the first. k = V / (I_f (I_f - I_t)) lets I_f flow into a dead short circuit.
//
// The magnitude I_o and the turned current come from a band pass at the frequency w with its
// quadrature (a second-order generalised integrator), so no derivative of the load is needed:
//   da/dt = w/2 (i_o - a) - w b     db/dt = w a     I_o^2 = (a^2 + b^2) / 2
//   di_o/d(w t) ~ da/d(w t), which lets no direct current through
// The resistive part takes i_o itself, which damps; from an angle of about 40 degrees on, some
// loads make the loop swing into the clamp, so no more than 45 is accepted.
// I_rms is the inverter's mean (20 ms).
//
//   symbol | field                        | unit
//   I      | peak_current_limit_A         | A, peak
//   I_f    | limited_current_A            | A, RMS
//   I_t    | virtual_threshold_A          | A, RMS
//   a      | virtual_impedance_angle_deg  | degrees; 0 is resistive
//   T      | foldback_time_ms             | ms
//
// Sources: the division into direct (the first two) and indirect methods is that of Baeckeland et
// al., IEEE Trans. Power Electronics 39(11), 2024 (abstract seen). The magnitude-dependent virtual
// impedance and the band pass are usual in the literature of droop-controlled inverters (recalled,
// not seen). The law of the foldback, normalised by m so that its loop gain does not depend on the
// load, and all defaults are engineering judgement.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>

#include "plant_models/numeric/select.hpp"
#include "plant_models/supplies/inverter/parameters.hpp"

namespace plant_models {

class CurrentLimiter {
  public:
    /// The band pass of the virtual impedance; the foldback keeps its m in the first.
    enum StateIndex { filtered_current, quadrature_current, voltage_share = filtered_current };
    static constexpr std::size_t state_count = 2;

    explicit CurrentLimiter(const InverterParameters& completed);

    std::array<double, state_count> initial_state() const;
    /// Whether the method acts through the voltage at all.
    bool lowers_voltage() const { return lowers_voltage_; }
    /// The voltage reference as far as such a method lets it stand.
    double lowered_V(double reference_V, double line_current_A, const double* x) const;
    /// Its rate; what a virtual impedance adds to it is left to the voltage loop.
    double lowered_rate(double reference_rate, const double* x) const {
        return method_ == Method::voltage_foldback ? x[voltage_share] * reference_rate
                                                   : reference_rate;
    }
    /// The reference of the current loop.
    double allowed_A(double wanted_A, double inductor_current_A) const {
        if (clamps_) {
            return clamp(wanted_A, -limit_A_, limit_A_);
        }
        return held_ == 0.0 ? wanted_A : inductor_current_A;
    }
    /// What the limit leaves of the resonant part's input.
    double resonator_input_A(double error_A, double allowed_A, double wanted_A) const {
        return held_ == 0.0 ? error_A + (allowed_A - wanted_A) : 0.0;
    }
    void derivatives(const double* x, double* dxdt, double line_current_A,
                     double mean_square_A2) const {
        dxdt[filtered_current] = 0.0;
        dxdt[quadrature_current] = 0.0;
        if (lowers_voltage_) {
            lowering_derivatives(x, dxdt, line_current_A, mean_square_A2);
        }
    }

    /// Kinks where the clamp of `wanted_A` sets in; 1 for a method that does not clamp it.
    double positive_room_A(double wanted_A) const { return clamps_ ? limit_A_ - wanted_A : 1.0; }
    double negative_room_A(double wanted_A) const { return clamps_ ? limit_A_ + wanted_A : 1.0; }
    /// Kink where the voltage begins to fall.
    double softening_room_A2(const double* x, double mean_square_A2) const;
    /// Plain guard: the current is at its limit and the loop asks for more, so the switches hold.
    double hold_begins_A(double wanted_A, double inductor_current_A) const;
    /// Plain guard: the switches let go again, or the voltage is whole again.
    double limiting_ends(const double* x, double wanted_A, double inductor_current_A) const;
    void begin_hold(double inductor_current_A) { held_ = inductor_current_A > 0.0 ? 1.0 : -1.0; }
    void end_limiting(double* x);
    void release() { held_ = 0.0; }

    bool active(const double* x, double wanted_A) const;

    /// Holds nothing, lowers nothing.
    bool settled(const double* x) const;
    /// Without load the band pass dies away.
    void rest(double* x, double duration_s) const;

  private:
    enum class Method { reference_clamp, switch_clamp, virtual_impedance, voltage_foldback };
    static Method method_of(std::string_view word);
    void lowering_derivatives(const double* x, double* dxdt, double line_current_A,
                              double mean_square_A2) const;
    static double magnitude_square(const double* x) {
        return 0.5 * (x[filtered_current] * x[filtered_current] +
                      x[quadrature_current] * x[quadrature_current]);
    }
    /// di/d(w t) of what the band pass lets through.
    static double filtered_slope_A(const double* x, double line_current_A) {
        return band_pass_gain * (line_current_A - x[filtered_current]) - x[quadrature_current];
    }

    /// Of the band pass: slow enough for a third harmonic not to modulate the impedance, which
    /// would feed it.
    static constexpr double band_pass_gain = 0.5;

    Method method_;
    bool clamps_;
    bool lowers_voltage_;
    double limit_A_;
    double limited_current_A_;
    double threshold_A_;
    double threshold_square_A2_;
    double gain_ohm_per_A_;
    double resistive_share_;
    double inductive_share_;
    double omega_rad_per_s_;
    double foldback_rate_per_s_;
    double held_ = 0.0;  ///< sign of the current that the switches hold
};

}  // namespace plant_models
