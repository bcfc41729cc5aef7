// Parameters of the supply "transformer_inverter"; the model is in transformer_inverter.hpp.
//
// Only voltage, frequency and rating must be given. Where 0 means "derived", `completed()` derives.
// Origin of the defaults: surge 300 % of the rating for 5 s lies within the published overload of
// transformer types (up to 300 %, 3-15 s); everything else is engineering judgement for a set on a
// lithium battery of sixteen cells.
#pragma once

#include <string_view>

#include "plant_models/parameter_table.hpp"

namespace plant_models {

struct TransformerInverterParameters {
    static constexpr std::string_view kind = "transformer_inverter";

    double voltage_V = 0.0;  ///< RMS, open circuit
    double frequency_Hz = 0.0;
    double rated_power_W = 0.0;  ///< rated current = rated_power_W / voltage_V, at any power factor
    double surge_power_W = 0.0;  ///< 0: 3 x rated_power_W
    double surge_time_s = 0.0;
    double peak_current_A = 0.0;  ///< instantaneous; 0: 1.5 x crest of the surge current
    double winding_resistance_percent = 0.0;  ///< of voltage_V^2 / rated_power_W
    double leakage_reactance_percent = 0.0;   ///< of the same
    double turns_ratio =
        0.0;  ///< AC side / DC side; 0: full crest down to 85 % of battery_voltage_V
    double idle_draw_W = 0.0;             ///< 0: 0.5 % of rated_power_W
    double input_capacitance_uF = 0.0;    ///< 0: 6.5 J per kW at battery_voltage_V
    double battery_voltage_V = 0.0;       ///< open circuit
    double battery_resistance_ohm = 0.0;  ///< 0: 3 % of battery_voltage_V^2 / rated_power_W
    double cable_resistance_ohm = 0.0;    ///< there and back; 0: 1 % of the same
    double battery_current_A = 0.0;  ///< continuous; 0: 1.5 x rated_power_W / battery_voltage_V
    double battery_surge_current_A = 0.0;  ///< 0: 4 x rated_power_W / battery_voltage_V
    double battery_surge_time_s = 0.0;
    double battery_minimum_V = 0.0;       ///< at the inverter's input; 0: 80 % of battery_voltage_V
    double battery_minimum_time_s = 0.0;  ///< time constant of the mean that is compared with it
    double phase_deg = 0.0;

    double nominal_voltage_V() const { return voltage_V; }
    double rated_current_A() const { return rated_power_W / voltage_V; }
    /// Of battery and cable together.
    double direct_resistance_ohm() const { return battery_resistance_ohm + cable_resistance_ohm; }

    /// The same parameters with every "0: derived" filled in.
    TransformerInverterParameters completed() const;

    static const ParameterTable<TransformerInverterParameters>& table();
    /// One sentence that says what is wrong between fields that are each in bounds; empty if none.
    std::string_view inconsistency() const;
};

}  // namespace plant_models
