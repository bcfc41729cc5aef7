// Supply "inverter": a transformerless inverter that limits its current by electronics.
//
// Averaged bridge (no switching ripple), LC output filter, two nested loops, a DC bus with finite
// storage and finite refill, an overload timer and an undervoltage trip.
//
//   reference        v*  = sqrt(2) V sin(2 pi f t + phase), as far as the limiting method lets it
//   current wanted   i_w = i_out + C dv*/dt + K_v (v* - v_C) + z1
//   current limit    i*  = clamp(i_w, -I_lim, +I_lim), or another: inverter/current_limiter.hpp
//   resonant part    dz1/dt = k [K_v (v* - v_C) + (i* - i_w)] - w z2,  dz2/dt = w z1
//   bridge           v_b = clamp(v_C + R i_L + K_c (i* - i_L), -v_dc, +v_dc)
//   filter           L di_L/dt = v_b - R i_L - v_C          C dv_C/dt = i_L - i_out
//   bus              C_dc dv_dc/dt = (P_refill - v_b i_L) / v_dc
//   refill           P_refill = clamp(k (V_dc - v_dc), 0, P_max): inverter/dc_side.hpp
//   overload         inverter/overload_timer.hpp
//
// The resonant part takes out the error at the fundamental, as an integrator does at zero
// frequency; (i* - i_w), which is zero without limiting, keeps it from winding up
// (back-calculation).
//
// Trips: "inverter_overload", "dc_bus_low" and "battery_voltage_low" block the bridge for good:
// i_w = 0 from then on. "battery_protection" disconnects the battery; the bridge works on until
// the bus is empty. The first trip is the one that is reported.
//
// Source of the structure: textbook cascaded control (e.g. Yazdani & Iravani,
// Voltage-Sourced Converters in Power Systems, 2010, ch. 9; recalled, not seen); the one-pole mean
// (20 ms) that stands for an RMS reading is engineering judgement.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "plant_models/supplies/inverter/current_limiter.hpp"
#include "plant_models/supplies/inverter/dc_side.hpp"
#include "plant_models/supplies/inverter/overload_timer.hpp"
#include "plant_models/supplies/inverter/parameters.hpp"
#include "plant_models/supplies/sine_reference.hpp"
#include "plant_models/supplies/supply_interface.hpp"

namespace plant_models {

/// The model; its members are described in supply_interface.hpp.
class Inverter {
  public:
    using Parameters = InverterParameters;
    enum StateIndex : std::size_t {
        inductor_current,
        output_voltage,
        resonator,
        resonator_quadrature,
        bus_voltage,
        mean_square,
        timer,
        first_limiter_state,
        first_dc_state = first_limiter_state + CurrentLimiter::state_count,
        battery_timer = first_dc_state + DcSide::protection_timer,
        battery_current_mean = first_dc_state + DcSide::current_mean
    };
    enum GuardIndex {
        current_limit_positive,
        current_limit_negative,
        bridge_limit_positive,
        bridge_limit_negative,
        refill_begins,
        refill_is_full,
        softening_begins,
        battery_rating_passed,
        rating_passed,
        timer_empty,
        timer_full,
        bus_too_low,
        hold_begins,
        limiting_ends,
        battery_timer_empty,
        battery_protection_opens,
        battery_too_low
    };
    static constexpr std::size_t state_count = first_dc_state + DcSide::state_count;
    static constexpr std::size_t guard_count = battery_too_low + 1;
    static constexpr std::size_t channel_count = 8;

    explicit Inverter(const InverterParameters& inverter);

    double series_resistance_ohm() const { return 0.0; }
    double series_inductance_H() const { return 0.0; }
    double largest_step_s() const { return largest_step_s_; }
    double frequency_Hz(const double* /*x*/) const { return reference_.frequency_Hz(); }
    /// A blocked bridge leaves the filter's capacitor on the line.
    bool disconnected() const { return false; }

    void set_origin(double time_s) { reference_.set_origin(time_s); }
    void set_frequency_share(double share, double time_s) {
        reference_.set_frequency_share(share, time_s);
    }
    std::array<double, state_count> initial_state() const;
    double emf_V(const double* x, double /*time_s*/) const { return x[output_voltage]; }
    SupplyPower derivatives(const double* x, double* dxdt, double time_s,
                            const SupplyLoading& loading) const;
    double stored_energy_J(const double* x) const;

    void guards(const double* x, double time_s, const SupplyLoading& loading, double* values) const;
    static bool guard_is_kink(std::size_t guard) { return guard <= rating_passed; }
    void on_guard(std::size_t guard, double* x);
    std::string_view trip_cause() const { return trip_cause_; }

    /// The filter hums as it does without load, nothing limits, and the bus has its charge back.
    bool settled(const double* x) const;
    /// What hums is the same after whole cycles.
    double whole_rest_s(double wanted_s) const;
    void rest(double* x, double begin_s, double end_s);

    static std::array<std::string_view, channel_count> channel_names();
    std::array<double, channel_count> channels(const double* x, double time_s,
                                               const SupplyLoading& loading) const;

  private:
    /// What the two loops ask for at one instant.
    struct Control {
        double error_A;          ///< of the voltage, as a current
        double wanted_A;         ///< by the voltage loop, before the limit
        double allowed_A;        ///< reference of the current loop
        double wanted_bridge_V;  ///< before the bus limits it
    };
    Control control(const double* x, double time_s, double line_current_A) const;
    void trip(std::string_view cause);
    void block(std::string_view cause);

    InverterParameters parameters_;
    SineReference reference_;
    CurrentLimiter limiter_;
    OverloadTimer overload_;
    DcSide dc_side_;
    double inductance_H_;
    double capacitance_F_;
    double bus_capacitance_F_;
    double voltage_gain_A_per_V_;
    double resonant_rate_per_s_;
    double current_gain_V_per_A_;
    double largest_step_s_;
    double bridge_enabled_ = 1.0;
    std::string_view trip_cause_;
};

}  // namespace plant_models
