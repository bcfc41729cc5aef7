#include "plant_models/supplies/transformer_inverter.hpp"

#include <algorithm>
#include <cmath>

#include "plant_models/numeric/relaxation.hpp"
#include "plant_models/numeric/select.hpp"
#include "plant_models/numeric/step_share.hpp"

namespace plant_models {

TransformerInverter::TransformerInverter(const TransformerInverterParameters& parameters)
    : parameters_(parameters.completed()),
      reference_(std::sqrt(2.0) * parameters.voltage_V, parameters.frequency_Hz,
                 parameters.phase_deg),
      output_image_(parameters_.rated_current_A(),
                    parameters_.surge_power_W / parameters_.voltage_V, parameters_.surge_time_s),
      battery_image_(parameters_.battery_current_A, parameters_.battery_surge_current_A,
                     parameters_.battery_surge_time_s),
      input_capacitance_F_(1e-6 * parameters_.input_capacitance_uF),
      direct_resistance_ohm_(parameters_.direct_resistance_ohm()),
      idle_conductance_S_(parameters_.idle_draw_W /
                          (parameters_.battery_voltage_V * parameters_.battery_voltage_V)) {
    const double base_ohm = parameters.voltage_V * parameters.voltage_V / parameters.rated_power_W;
    resistance_ohm_ = 0.01 * parameters.winding_resistance_percent * base_ohm;
    inductance_H_ = 0.01 * parameters.leakage_reactance_percent * base_ohm /
                    (2.0 * pi * parameters.frequency_Hz);
    // The input's own decay is followed as closely as the motor's; the highest current must not
    // empty it within a step.
    const double decay_s = step_share * direct_resistance_ohm_ * input_capacitance_F_;
    const double emptied_s = 0.2 * input_capacitance_F_ * parameters_.battery_voltage_V /
                             (parameters_.turns_ratio * parameters_.peak_current_A);
    largest_step_s_ = std::min({100e-6, decay_s, emptied_s});
}

std::array<double, TransformerInverter::state_count> TransformerInverter::initial_state() const {
    // On, without load, for a while.
    std::array<double, state_count> x{};
    x[input_voltage] = idle_input_V();
    x[mean_input_voltage] = x[input_voltage];
    return x;
}

double TransformerInverter::idle_input_V() const {
    return parameters_.battery_voltage_V /
           (1.0 + direct_resistance_ohm_ * running_ * idle_conductance_S_);
}

double TransformerInverter::battery_current_A(const double* x) const {
    return (parameters_.battery_voltage_V - x[input_voltage]) / direct_resistance_ohm_;
}

double TransformerInverter::highest_emf_V(const double* x) const {
    return running_ * parameters_.turns_ratio * std::max(x[input_voltage], 0.0);
}

double TransformerInverter::conversion(const double* x, double time_s) const {
    if (x[input_voltage] <= 0.0) {
        return 0.0;
    }
    const double highest = running_ * parameters_.turns_ratio;
    return clamp(reference_.value(time_s) / x[input_voltage], -highest, highest);
}

double TransformerInverter::emf_V(const double* x, double time_s) const {
    return conversion(x, time_s) * x[input_voltage];
}

SupplyPower TransformerInverter::derivatives(const double* x, double* dxdt, double time_s,
                                             const SupplyLoading& loading) const {
    const double ratio = conversion(x, time_s);
    const double input_V = x[input_voltage];
    const double emf = ratio * input_V;
    const double line_A = loading.line_current_A();
    const double battery_A = battery_current_A(x);
    const double bridge_A = ratio * line_A;
    const double idle_A = running_ * idle_conductance_S_ * input_V;

    dxdt[input_voltage] = (battery_A - bridge_A - idle_A) / input_capacitance_F_;
    dxdt[mean_input_voltage] =
        (input_V - x[mean_input_voltage]) / parameters_.battery_minimum_time_s;
    dxdt[output_heat] = output_image_.rate_per_s(x[output_heat], line_A);
    dxdt[battery_heat] = battery_image_.rate_per_s(x[battery_heat], battery_A);
    const double loss = direct_resistance_ohm_ * battery_A * battery_A + idle_A * input_V +
                        (emf - loading.terminal_voltage_V) * loading.iron_current_A;
    return {parameters_.battery_voltage_V * battery_A, loss};
}

void TransformerInverter::guards(const double* x, double time_s, const SupplyLoading& loading,
                                 double* values) const {
    if (!trip_cause_.empty()) {
        for (std::size_t k = 0; k < guard_count; ++k) {
            values[k] = 1.0;
        }
        return;
    }
    const double highest = highest_emf_V(x);
    const double wanted = reference_.value(time_s);
    values[flat_top_positive] = highest - wanted;
    values[flat_top_negative] = highest + wanted;
    values[input_empty] = x[input_voltage];
    values[peak_current] = parameters_.peak_current_A - magnitude(loading.line_current_A());
    values[output_overload] = ThermalImage::margin(x[output_heat]);
    values[battery_overload] = ThermalImage::margin(x[battery_heat]);
    values[battery_low] = x[mean_input_voltage] - parameters_.battery_minimum_V;
}

void TransformerInverter::on_guard(std::size_t guard, double* /*x*/) {
    switch (guard) {
        case peak_current:
        case output_overload:
            trip_cause_ = "inverter_overload";
            break;
        case battery_overload:
            trip_cause_ = "battery_protection";
            break;
        case battery_low:
            trip_cause_ = "battery_voltage_low";
            break;
        default:
            return;
    }
    running_ = 0.0;
}

void TransformerInverter::rest(double* x, double begin_s, double end_s) const {
    const double duration_s = end_s - begin_s;
    const double idle_V = idle_input_V();
    const double lag_s = direct_resistance_ohm_ * input_capacitance_F_;
    x[input_voltage] = relaxed(x[input_voltage], idle_V, lag_s, duration_s);
    x[mean_input_voltage] =
        relaxed(x[mean_input_voltage], idle_V, parameters_.battery_minimum_time_s, duration_s);
    x[output_heat] = output_image_.later(x[output_heat], 0.0, duration_s);
    const double idle_A = (parameters_.battery_voltage_V - idle_V) / direct_resistance_ohm_;
    x[battery_heat] = battery_image_.later(x[battery_heat], idle_A, duration_s);
}

std::array<std::string_view, TransformerInverter::channel_count>
TransformerInverter::channel_names() {
    return {"battery_current_A", "inverter_input_V", "inverter_flat_top",
            "inverter_overload_percent", "battery_overload_percent"};
}

std::array<double, TransformerInverter::channel_count> TransformerInverter::channels(
    const double* x, double time_s, const SupplyLoading& /*loading*/) const {
    const bool flat = magnitude(reference_.value(time_s)) > highest_emf_V(x);
    return {battery_current_A(x), x[input_voltage], flat && running_ == 1.0 ? 1.0 : 0.0,
            ThermalImage::percent_of_trip(x[output_heat]),
            ThermalImage::percent_of_trip(x[battery_heat])};
}

}  // namespace plant_models
