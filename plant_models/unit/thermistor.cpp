#include "plant_models/unit/thermistor.hpp"

#include <cmath>

#include "plant_models/numeric/relaxation.hpp"

namespace plant_models {

namespace {

constexpr double least_resistance_range = 100.0;
/// Of the cold resistance; see the header.
constexpr double cut_off_ratio = 30.0;
constexpr double conducts_again_ratio = 15.0;
constexpr double hottest_C = 600.0;

}  // namespace

ThermistorParameters ThermistorParameters::completed() const {
    ThermistorParameters full = *this;
    if (full.maximum_resistance_ohm == 0.0) {
        full.maximum_resistance_ohm = 1000.0 * full.cold_resistance_ohm;
    }
    return full;
}

const ParameterTable<ThermistorParameters>& ThermistorParameters::table() {
    using T = ThermistorParameters;
    static const ParameterTable<T> rows = {
        {"cold_resistance_ohm", &T::cold_resistance_ohm, 1, 1000, {}, "rated resistance, at 25 C"},
        {"switching_C", &T::switching_C, 80, 200, 120.0,
         "temperature at which the resistance is twice the cold one"},
        {"steepness_percent_per_K", &T::steepness_percent_per_K, 10, 60, 15.0,
         "greatest relative slope of the resistance"},
        {"maximum_resistance_ohm", &T::maximum_resistance_ohm, 0, 1e6, 0.0,
         "resistance far above switching; 0: 1000 x cold_resistance_ohm"},
        {"heat_capacity_J_per_K", &T::heat_capacity_J_per_K, 0.1, 100, 2.5, "heat capacity"},
        {"dissipation_mW_per_K", &T::dissipation_mW_per_K, 1, 1000, 28.0,
         "heat given off per kelvin above ambient"},
    };
    return rows;
}

std::string_view ThermistorParameters::inconsistency() const {
    if (completed().maximum_resistance_ohm < least_resistance_range * cold_resistance_ohm) {
        return "maximum_resistance_ohm must be at least 100 x cold_resistance_ohm";
    }
    return {};
}

Thermistor::Thermistor(const ThermistorParameters& thermistor, const MotorParameters& motor,
                       const Conditions& conditions)
    : cold_ohm_(thermistor.cold_resistance_ohm),
      log_range_(std::log(thermistor.completed().maximum_resistance_ohm / cold_ohm_)),
      rate_per_K_(4.0 * 0.01 * thermistor.steepness_percent_per_K / log_range_),
      capacity_J_per_K_(thermistor.heat_capacity_J_per_K),
      dissipation_W_per_K_(1e-3 * thermistor.dissipation_mW_per_K),
      ambient_C_(conditions.ambient_C),
      across_capacitor_(motor.run_capacitor_uF > 0.0) {
    middle_C_ = thermistor.switching_C + std::log(log_range_ / std::log(2.0) - 1.0) / rate_per_K_;
    const double held_C = holding_temperature_C(motor.rated_voltage_V);
    initial_C_ = ambient_C_ +
                 (held_C - ambient_C_) * std::exp(-conditions.rest_s / cooling_time_constant_s());
    conducts_ = resistance_at_ohm(initial_C_) < cut_off_ratio * cold_ohm_;
}

double Thermistor::resistance_at_ohm(double temperature_C) const {
    const double share = 1.0 / (1.0 + std::exp(rate_per_K_ * (middle_C_ - temperature_C)));
    return cold_ohm_ * std::exp(log_range_ * share);
}

/// Where the heat of a voltage held for ever is given off. More heat is given off the hotter it
/// is, and less is made: halving the interval cannot miss.
double Thermistor::holding_temperature_C(double voltage_V) const {
    double low = ambient_C_;
    double high = hottest_C;
    for (int k = 0; k < 60; ++k) {
        const double middle = 0.5 * (low + high);
        const double made_W = voltage_V * voltage_V / resistance_at_ohm(middle);
        (dissipation_W_per_K_ * (middle - ambient_C_) < made_W ? low : high) = middle;
    }
    return low;
}

void Thermistor::derivatives(const double* x, double* dxdt, const UnitSignals& signals) const {
    const double resistance = resistance_ohm(x);
    double heat_W = 0.0;
    if (carries_auxiliary()) {
        heat_W = signals.aux_current_A * signals.aux_current_A * resistance;
    } else {
        const double across_V = across_capacitor_ ? signals.run_capacitor_voltage_V
                                                  : signals.auxiliary_branch_voltage_V;
        heat_W = across_V * across_V / resistance;
    }
    dxdt[body] = (heat_W - dissipation_W_per_K_ * (x[body] - ambient_C_)) / capacity_J_per_K_;
}

void Thermistor::guards(const double* x, const UnitSignals& /*signals*/, double* values) const {
    const double ratio = resistance_ohm(x) / cold_ohm_;
    values[cuts_off] = !across_capacitor_ && conducts_ ? cut_off_ratio - ratio : 1.0;
    values[conducts_again] = !across_capacitor_ && !conducts_ ? ratio - conducts_again_ratio : 1.0;
}

void Thermistor::rest(double* x, const RestStep& step) {
    x[body] += step.capacitor_heat_J / capacity_J_per_K_;
    x[body] = relaxed(x[body], ambient_C_, cooling_time_constant_s(), step.duration_s);
    if (!across_capacitor_ && !conducts_ && resistance_ohm(x) < conducts_again_ratio * cold_ohm_) {
        conducts_ = true;
    }
}

}  // namespace plant_models
