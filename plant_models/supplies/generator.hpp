// Supply "generator": an engine with a governor drives a synchronous alternator with a regulator.
//
//   EMF          e = sqrt(2) E nu sin(theta)             d theta/dt = w_0 nu
//   shaft        2 H S dnu/dt = P_m u - P_0 nu - sqrt(2) E sin(theta) i
//   governor     T_g du/dt = clamp((g (1 + d) - nu) / d, 0, 1) - u        g = 1 as it is set
//   flux         T_d dE/dt = F - E - (X - X') i_d        i_d = -sqrt(2) i cos(theta)
//   exciter      T_x dF/dt = clamp(V + (V_r - V_t) / k, F_0, F_0 + c V_t) - F
//   reference    V_r = V min(1, nu / knee)
//   terminal     V_t = | E nu - (R + j nu X') (i_q - j i_d) |    i_q = sqrt(2) i sin(theta)
//
//   nu speed share, u torque share of the engine, E flux and F field, both as the RMS voltage that
//   they would make without load at rated speed; P_m, P_0 engine and loss at rated speed
//
// R and X' (one reactance, as an inductance) are in series with e. The armature reaction i_d, which
// lags the EMF and weakens the field, acts through the field's time constant; that is why a motor's
// reactive starting current pulls the voltage down over some tenths of a second. The regulator
// reads the fundamental at the set's own terminals, reconstructed from one-pole means of i_d and
// i_q (20 ms). Its ceiling follows that voltage (the alternator feeds its own field), so a short
// circuit or a far too large motor makes the field collapse to its remanence F_0 (2 % of V,
// judgement), from which it builds up again.
//
// Energy: the source is the engine's work P_m u nu; the no-load loss P_0 nu^2 and a stalled
// engine's drag are losses; stored is H S nu^2. The field's own energy is neglected.
//
// "generator_stalled": the speed falls below its share. The engine gives no torque any more and
// drags (20 % of its rated torque at rated speed, in proportion to the speed; judgement); the set
// runs down, still connected.
// "generator_breaker": thermal part (thermal_image.hpp) or instantaneous current; opens the line.
//
// Neglected: damper windings, saturation, the engine's torque pulses, its torque curve (the most it
// gives is constant); the quadrature reactance is taken equal to X', so that a load of high power
// factor needs less field here than in a real set (a start is of low power factor). Source of the
// structure: one-axis machine model and droop governor, e.g. Kundur, Power System Stability and
// Control, 1994 (recalled, not seen).
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "plant_models/supplies/generator_parameters.hpp"
#include "plant_models/supplies/supply_interface.hpp"
#include "plant_models/supplies/thermal_image.hpp"

namespace plant_models {

/// The model; its members are described in supply_interface.hpp.
class Generator {
  public:
    using Parameters = GeneratorParameters;
    enum StateIndex {
        angle,          ///< theta, electrical
        speed,          ///< nu
        engine_torque,  ///< u
        transient_emf,  ///< E, RMS, at rated speed
        field,          ///< F, as the E that it would make without load
        direct_mean,    ///< of i_d
        quadrature_mean,
        breaker_heat
    };
    enum GuardIndex {
        governor_shut,
        governor_open,
        field_at_remanence,
        field_at_ceiling,
        underfrequency,
        stalled,
        breaker_warm,
        breaker_instant
    };
    static constexpr std::size_t state_count = 8;
    static constexpr std::size_t guard_count = 8;
    static constexpr std::size_t channel_count = 4;

    explicit Generator(const GeneratorParameters& parameters);

    double series_resistance_ohm() const { return resistance_ohm_; }
    double series_inductance_H() const { return transient_ohm_ / omega_rad_per_s_; }
    double largest_step_s() const { return 200e-6; }
    double frequency_Hz(const double* x) const { return parameters_.frequency_Hz * x[speed]; }

    void set_origin(double /*time_s*/) {}
    /// The governor is set to it.
    void set_frequency_share(double share, double /*time_s*/) { governor_setting_ = share; }
    std::array<double, state_count> initial_state() const;
    double emf_V(const double* x, double time_s) const;
    SupplyPower derivatives(const double* x, double* dxdt, double time_s,
                            const SupplyLoading& loading) const;
    double stored_energy_J(const double* x) const {
        return 0.5 * doubled_energy_J_ * x[speed] * x[speed];
    }

    void guards(const double* x, double time_s, const SupplyLoading& loading, double* values) const;
    static bool guard_is_kink(std::size_t guard) { return guard <= underfrequency; }
    void on_guard(std::size_t guard, double* x);
    std::string_view trip_cause() const { return trip_cause_; }
    bool disconnected() const { return breaker_open_; }

    bool settled(const double* /*x*/) const { return true; }
    double whole_rest_s(double wanted_s) const { return wanted_s; }
    /// Integrated by itself until it idles steadily, in the equations without a load, in which its
    /// angle no longer matters; from there on only the angle moves.
    void rest(double* x, double begin_s, double end_s) const;

    static std::array<std::string_view, channel_count> channel_names();
    std::array<double, channel_count> channels(const double* x, double time_s,
                                               const SupplyLoading& loading) const;

    /// RMS of the fundamental at the set's terminals, as the regulator sees it.
    double terminal_voltage_V(const double* x) const;

  private:
    double wanted_throttle(const double* x) const;
    double wanted_field_V(const double* x, double terminal_V) const;

    GeneratorParameters parameters_;
    ThermalImage breaker_image_;
    double omega_rad_per_s_;
    double resistance_ohm_;
    double transient_ohm_;
    double armature_reaction_ohm_;  ///< X - X'
    double doubled_energy_J_;       ///< 2 H S
    double no_load_loss_W_;
    double droop_;
    double knee_;
    double stall_speed_;
    double field_ceiling_;
    double remanence_V_;     ///< F_0
    double regulator_gain_;  ///< 1 / k
    double governor_setting_ = 1.0;
    double engine_runs_ = 1.0;
    bool breaker_open_ = false;
    std::string_view trip_cause_;
};

}  // namespace plant_models
