// Supply "transformer_inverter": a bridge on a battery that drives a low-frequency transformer.
//
//   wanted           v* = sqrt(2) V sin(2 pi f t + phase)
//   EMF              e  = clamp(v*, -n v_d, n v_d)         flat tops when the battery sags
//   series           R, L of the transformer, on the AC side
//   DC input         C dv_d/dt = i_b - (e / v_d) i_out - g v_d         g = P_idle / V_b^2
//                    an empty input (v_d <= 0) gives nothing and takes nothing: e / v_d = 0
//   battery          i_b = (V_b - v_d) / (R_b + R_cable)               either direction
//
// It has no current limit: what the load draws flows, up to the trips. There is no feedback of the
// output either: under load the voltage falls by the drop across R and L. A set that corrects its
// RMS value over some cycles would hold it a few per cent higher.
//
// Causes of a trip (each stops the bridge and opens the output relay, for good):
//   "inverter_overload"    the thermal image of the output current (thermal_image.hpp): never at
//                          the rating, after exactly the surge time at the surge; or the
//                          instantaneous current passes its peak
//   "battery_protection"   the same form of image for the battery's current
//   "battery_voltage_low"  the mean of v_d (one pole) passes below its minimum
//
// Neglected: magnetizing current and saturation of the transformer (its loss is in the idle draw),
// switching ripple, the battery's voltage over its charge. Source: textbook power electronics; the
// battery as EMF behind a resistance is the usual model for seconds.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "plant_models/supplies/sine_reference.hpp"
#include "plant_models/supplies/supply_interface.hpp"
#include "plant_models/supplies/thermal_image.hpp"
#include "plant_models/supplies/transformer_inverter_parameters.hpp"

namespace plant_models {

/// The model; its members are described in supply_interface.hpp.
class TransformerInverter {
  public:
    using Parameters = TransformerInverterParameters;
    enum StateIndex { input_voltage, mean_input_voltage, output_heat, battery_heat };
    enum GuardIndex {
        flat_top_positive,
        flat_top_negative,
        input_empty,
        peak_current,
        output_overload,
        battery_overload,
        battery_low
    };
    static constexpr std::size_t state_count = 4;
    static constexpr std::size_t guard_count = 7;
    static constexpr std::size_t channel_count = 5;

    explicit TransformerInverter(const TransformerInverterParameters& parameters);

    double series_resistance_ohm() const { return resistance_ohm_; }
    double series_inductance_H() const { return inductance_H_; }
    double largest_step_s() const { return largest_step_s_; }
    double frequency_Hz(const double* /*x*/) const { return reference_.frequency_Hz(); }

    void set_origin(double time_s) { reference_.set_origin(time_s); }
    void set_frequency_share(double share, double time_s) {
        reference_.set_frequency_share(share, time_s);
    }
    std::array<double, state_count> initial_state() const;
    double emf_V(const double* x, double time_s) const;
    SupplyPower derivatives(const double* x, double* dxdt, double time_s,
                            const SupplyLoading& loading) const;
    double stored_energy_J(const double* x) const {
        return 0.5 * input_capacitance_F_ * x[input_voltage] * x[input_voltage];
    }

    void guards(const double* x, double time_s, const SupplyLoading& loading, double* values) const;
    static bool guard_is_kink(std::size_t guard) { return guard <= input_empty; }
    void on_guard(std::size_t guard, double* x);
    std::string_view trip_cause() const { return trip_cause_; }
    bool disconnected() const { return !trip_cause_.empty(); }

    bool settled(const double* /*x*/) const { return true; }
    double whole_rest_s(double wanted_s) const { return wanted_s; }
    /// The input finds its idle voltage within milliseconds; the rest follows that.
    void rest(double* x, double begin_s, double end_s) const;

    static std::array<std::string_view, channel_count> channel_names();
    std::array<double, channel_count> channels(const double* x, double time_s,
                                               const SupplyLoading& loading) const;

  private:
    double battery_current_A(const double* x) const;
    /// Without load, after a while.
    double idle_input_V() const;
    /// The most that the bridge can put out now; 0 at an input that is empty.
    double highest_emf_V(const double* x) const;
    /// EMF / input voltage: what the transformer makes of it, at most its turns ratio.
    double conversion(const double* x, double time_s) const;

    TransformerInverterParameters parameters_;
    SineReference reference_;
    ThermalImage output_image_;
    ThermalImage battery_image_;
    double resistance_ohm_;
    double inductance_H_;
    double input_capacitance_F_;
    double direct_resistance_ohm_;
    double idle_conductance_S_;
    double largest_step_s_;
    double running_ = 1.0;
    std::string_view trip_cause_;
};

}  // namespace plant_models
