#include "plant_models/supplies/transformer_inverter_parameters.hpp"

#include <cmath>

#include "plant_models/supplies/thermal_image.hpp"

namespace plant_models {

namespace {

constexpr double surge_share = 3.0;
constexpr double peak_share = 1.5;
constexpr double idle_share = 0.005;
constexpr double battery_drop_share = 0.03;
constexpr double cable_drop_share = 0.01;
constexpr double battery_share = 1.5;
constexpr double battery_surge_share = 4.0;
constexpr double low_battery_share = 0.80;
constexpr double full_crest_battery_share = 0.85;
constexpr double input_energy_J_per_W = 0.0065;
/// Shortest time constant of the input capacitor that the integration's step resolves.
/// A bridge whose input empties within a few switching periods is no bridge.
constexpr double least_hold_up_s = 50e-6;
constexpr double least_input_time_constant_s = 100e-6;

void derive_if_zero(double& value, double derived) {
    if (value == 0.0) {
        value = derived;
    }
}

}  // namespace

TransformerInverterParameters TransformerInverterParameters::completed() const {
    TransformerInverterParameters full = *this;
    const double battery_square = battery_voltage_V * battery_voltage_V;
    const double battery_rated_A = rated_power_W / battery_voltage_V;
    derive_if_zero(full.surge_power_W, surge_share * rated_power_W);
    derive_if_zero(full.peak_current_A,
                   peak_share * std::sqrt(2.0) * full.surge_power_W / voltage_V);
    derive_if_zero(full.turns_ratio,
                   std::sqrt(2.0) * voltage_V / (full_crest_battery_share * battery_voltage_V));
    derive_if_zero(full.idle_draw_W, idle_share * rated_power_W);
    derive_if_zero(full.input_capacitance_uF,
                   1e6 * 2.0 * input_energy_J_per_W * rated_power_W / battery_square);
    derive_if_zero(full.battery_resistance_ohm,
                   battery_drop_share * battery_square / rated_power_W);
    derive_if_zero(full.cable_resistance_ohm, cable_drop_share * battery_square / rated_power_W);
    derive_if_zero(full.battery_current_A, battery_share * battery_rated_A);
    derive_if_zero(full.battery_surge_current_A, battery_surge_share * battery_rated_A);
    derive_if_zero(full.battery_minimum_V, low_battery_share * battery_voltage_V);
    return full;
}

const ParameterTable<TransformerInverterParameters>& TransformerInverterParameters::table() {
    using T = TransformerInverterParameters;
    static const ParameterTable<T> rows = {
        {"voltage_V", &T::voltage_V, 50, 300, {}, "output voltage without load, RMS"},
        {"frequency_Hz", &T::frequency_Hz, 45, 65, {}, "frequency"},
        {"rated_power_W",
         &T::rated_power_W,
         100,
         50000,
         {},
         "rating; as a current rated_power_W / voltage_V, which it carries for ever"},
        {"surge_power_W", &T::surge_power_W, 0, 200000, 0.0,
         "surge rating, as a current like rated_power_W; 0: 3 x rated_power_W"},
        {"surge_time_s", &T::surge_time_s, 0.1, 600, 5.0,
         "time that it carries the surge rating from cold before it trips"},
        {"peak_current_A", &T::peak_current_A, 0, 5000, 0.0,
         "instantaneous current that trips at once; 0: 1.5 x crest of the surge current"},
        {"winding_resistance_percent", &T::winding_resistance_percent, 0, 20, 2.0,
         "resistance of transformer and bridge, of voltage_V^2 / rated_power_W"},
        {"leakage_reactance_percent", &T::leakage_reactance_percent, 0, 30, 4.0,
         "leakage reactance of the transformer, of voltage_V^2 / rated_power_W"},
        {"turns_ratio", &T::turns_ratio, 0, 100, 0.0,
         "transformer, AC side / DC side; 0: full crest down to 85 % of battery_voltage_V"},
        {"idle_draw_W", &T::idle_draw_W, 0, 1000, 0.0,
         "drawn without load: magnetizing, switching, control; 0: 0.5 % of rated_power_W"},
        {"input_capacitance_uF", &T::input_capacitance_uF, 0, 2e6, 0.0,
         "capacitor at the DC input; 0: 6.5 J per kW at battery_voltage_V"},
        {"battery_voltage_V", &T::battery_voltage_V, 10, 120, 51.2, "battery without load"},
        {"battery_resistance_ohm", &T::battery_resistance_ohm, 0, 5, 0.0,
         "battery; 0: 3 % of battery_voltage_V^2 / rated_power_W"},
        {"cable_resistance_ohm", &T::cable_resistance_ohm, 0, 5, 0.0,
         "battery cable, there and back; 0: 1 % of battery_voltage_V^2 / rated_power_W"},
        {"battery_current_A", &T::battery_current_A, 0, 10000, 0.0,
         "current that the battery's protection lets flow for ever, RMS; 0: 1.5 x rated_power_W / "
         "battery_voltage_V"},
        {"battery_surge_current_A", &T::battery_surge_current_A, 0, 50000, 0.0,
         "current at which it opens after battery_surge_time_s, RMS; 0: 4 x rated_power_W / "
         "battery_voltage_V"},
        {"battery_surge_time_s", &T::battery_surge_time_s, 0.01, 600, 10.0,
         "see battery_surge_current_A"},
        {"battery_minimum_V", &T::battery_minimum_V, 0, 120, 0.0,
         "mean voltage at the DC input below which it trips; 0: 80 % of battery_voltage_V"},
        {"battery_minimum_time_s", &T::battery_minimum_time_s, 0.005, 60, 0.2,
         "time constant of the mean that is compared with battery_minimum_V"},
        {"phase_deg", &T::phase_deg, -360, 360, 0.0,
         "phase of the voltage's sine when the run begins; 0 is its rising zero"},
    };
    return rows;
}

std::string_view TransformerInverterParameters::inconsistency() const {
    const TransformerInverterParameters full = completed();
    if (full.surge_power_W < ThermalImage::least_surge_ratio * rated_power_W) {
        return "surge_power_W must be at least 1.1 x rated_power_W";
    }
    if (full.peak_current_A < std::sqrt(2.0) * rated_current_A()) {
        return "peak_current_A must be at least the crest of the rated current (1.414 x "
               "rated_power_W / voltage_V)";
    }
    if (full.turns_ratio * battery_voltage_V < std::sqrt(2.0) * voltage_V) {
        return "turns_ratio must be at least 1.414 x voltage_V / battery_voltage_V";
    }
    if (full.battery_surge_current_A < ThermalImage::least_surge_ratio * full.battery_current_A) {
        return "battery_surge_current_A must be at least 1.1 x battery_current_A";
    }
    if (full.battery_minimum_V >= battery_voltage_V) {
        return "battery_minimum_V must be below battery_voltage_V";
    }
    if (1e-6 * full.input_capacitance_uF * full.direct_resistance_ohm() <
        least_input_time_constant_s) {
        return "input_capacitance_uF times the resistance of battery and cable must be at least "
               "100 microseconds";
    }
    if (1e-6 * full.input_capacitance_uF * battery_voltage_V <
        least_hold_up_s * full.turns_ratio * full.peak_current_A) {
        return "input_capacitance_uF must feed turns_ratio x peak_current_A for at least 50 "
               "microseconds";
    }
    return {};
}

}  // namespace plant_models
