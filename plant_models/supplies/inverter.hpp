// Supply "inverter": a transformerless inverter that limits its current instantaneously.
//
// Averaged bridge (no switching ripple), LC output filter, two nested loops, a DC bus with finite
// storage and finite refill, an overload timer and an undervoltage trip.
//
//   reference        v*  = sqrt(2) V sin(2 pi f t + phase)
//   current wanted   i_w = i_out + C dv*/dt + K_v (v* - v_C) + z1
//   current limit    i*  = clamp(i_w, -I_lim, +I_lim)
//   resonant part    dz1/dt = k [K_v (v* - v_C) + (i* - i_w)] - w z2,  dz2/dt = w z1
//   bridge           v_b = clamp(v_C + R i_L + K_c (i* - i_L), -v_dc, +v_dc)
//   filter           L di_L/dt = v_b - R i_L - v_C          C dv_C/dt = i_L - i_out
//   bus              C_dc dv_dc/dt = (P_refill - v_b i_L) / v_dc
//   refill           P_refill = clamp(k (V_dc - v_dc), 0, P_max), full power at 5 % sag
//   overload timer   rises 1 s/s while the RMS output current is above rated, else falls to 0
//
// The resonant part takes out the error at the fundamental, as an integrator does at zero
// frequency; (i* - i_w), which is zero without limiting, keeps it from winding up
// (back-calculation).
//
// The two trips ("inverter_overload", "dc_bus_low") block the bridge for good: i_w = 0 from then
// on.
//
// Source of the structure: textbook cascaded control (e.g. Yazdani & Iravani,
// Voltage-Sourced Converters in Power Systems, 2010, ch. 9; recalled, not seen); the values of the
// defaults are engineering judgement within the published ranges (filter 0.3-3 mH, 5-30 uF;
// overload 25-50 % for 3-15 s), and so is the one-pole mean (20 ms) that stands for an RMS reading.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "plant_models/parameter_table.hpp"
#include "plant_models/supplies/sine_reference.hpp"
#include "plant_models/supplies/supply_interface.hpp"

namespace plant_models {

struct InverterParameters {
    static constexpr std::string_view kind = "inverter";

    double voltage_V = 0.0;  ///< RMS
    double frequency_Hz = 0.0;
    double peak_current_limit_A = 0.0;  ///< of the filter inductor's current, either direction
    double phase_deg = 0.0;
    double filter_inductance_mH = 0.0;
    double filter_resistance_ohm = 0.0;
    double filter_capacitance_uF = 0.0;
    double current_loop_bandwidth_Hz = 0.0;
    double voltage_loop_bandwidth_Hz = 0.0;
    double bus_voltage_V = 0.0;       ///< 0: 1.75 x voltage_V
    double bus_minimum_V = 0.0;       ///< 0: 1.30 x voltage_V
    double bus_capacitance_uF = 0.0;  ///< 0: 40 J per kVA of rating
    double refill_power_W = 0.0;      ///< 0: voltage_V x rated current
    double rated_current_A = 0.0;     ///< RMS; 0: peak_current_limit_A / (1.5 sqrt 2)
    double overload_time_s = 0.0;

    /// The same parameters with every "0: derived" filled in.
    InverterParameters completed() const;

    static const ParameterTable<InverterParameters>& table();
    /// One sentence that says what is wrong between fields that are each in bounds; empty if none.
    std::string_view inconsistency() const;
};

/// The model; its members are described in supply_interface.hpp.
class Inverter {
  public:
    using Parameters = InverterParameters;
    enum StateIndex {
        inductor_current,
        output_voltage,
        resonator,
        resonator_quadrature,
        bus_voltage,
        mean_square,
        timer
    };
    enum GuardIndex {
        current_limit_positive,
        current_limit_negative,
        bridge_limit_positive,
        bridge_limit_negative,
        refill_begins,
        refill_is_full,
        rating_passed,
        timer_empty,
        timer_full,
        bus_too_low
    };
    static constexpr std::size_t state_count = 7;
    static constexpr std::size_t guard_count = 10;
    static constexpr std::size_t channel_count = 4;

    explicit Inverter(const InverterParameters& inverter);

    double series_resistance_ohm() const { return 0.0; }
    double series_inductance_H() const { return 0.0; }
    double largest_step_s() const { return largest_step_s_; }
    double frequency_Hz() const { return reference_.frequency_Hz(); }

    void set_origin(double time_s) { reference_.set_origin(time_s); }
    std::array<double, state_count> initial_state() const;
    double emf_V(const double* x, double /*time_s*/) const { return x[output_voltage]; }
    SupplyPower derivatives(const double* x, double* dxdt, double time_s,
                            const SupplyLoading& loading) const;
    double stored_energy_J(const double* x) const;

    void guards(const double* x, double time_s, const SupplyLoading& loading, double* values) const;
    static bool guard_is_kink(std::size_t guard) { return guard <= rating_passed; }
    void on_guard(std::size_t guard, double* x);
    std::string_view trip_cause() const { return trip_cause_; }

    static std::array<std::string_view, channel_count> channel_names();
    std::array<double, channel_count> channels(const double* x, double time_s,
                                               const SupplyLoading& loading) const;

  private:
    /// Current that the voltage loop asks for, before the limit.
    double wanted_current_A(const double* x, double time_s, const SupplyLoading& loading) const;
    /// Bridge voltage that the current loop asks for, before the bus limits it.
    double wanted_bridge_voltage_V(const double* x, double limited_current_A) const;
    double limited(double current_A) const;

    InverterParameters parameters_;
    SineReference reference_;
    double inductance_H_;
    double capacitance_F_;
    double bus_capacitance_F_;
    double voltage_gain_A_per_V_;
    double resonant_rate_per_s_;
    double current_gain_V_per_A_;
    double refill_slope_W_per_V_;
    double largest_step_s_;
    double bridge_enabled_ = 1.0;
    std::string_view trip_cause_;
};

}  // namespace plant_models
