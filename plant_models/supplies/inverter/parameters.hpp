// Parameters of the transformerless inverter: what a data sheet, or a guess, says about it.
//
// Keys whose default is 0 are derived from the others (`completed`). Values are engineering
// judgement within the published ranges (filter 0.3-3 mH, 5-30 uF; overload 25-50 % for 3-15 s),
// those of the battery side after a bank of 16 lithium iron phosphate cells and its protection.
#pragma once

#include <string_view>

#include "plant_models/parameter_table.hpp"

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

    std::string_view limiting_method = "reference_clamp";
    double limited_current_A = 0.0;    ///< RMS; 0: 0.9 x peak_current_limit_A / sqrt 2
    double virtual_threshold_A = 0.0;  ///< RMS; 0: 0.75 x limited_current_A
    double virtual_impedance_angle_deg = 0.0;
    double foldback_time_ms = 0.0;

    std::string_view overload_law = "definite_time";
    double surge_power_W = 0.0;  ///< 0: voltage_V x peak_current_limit_A / sqrt 2
    double surge_time_s = 0.0;   ///< 0: overload_time_s

    double idle_draw_W = 0.0;  ///< from the DC source, until it trips

    std::string_view dc_side = "stiff";
    double battery_voltage_V = 0.0;        ///< open circuit
    double battery_resistance_mohm = 0.0;  ///< 0: 4 % sag at refill_power_W
    double battery_cable_mohm = 0.0;       ///< both ways, with fuse and terminals
    double boost_loss_percent = 0.0;       ///< of what goes into the boost stage
    double battery_minimum_V = 0.0;        ///< 0: 0.84 x battery_voltage_V
    double battery_protection_A = 0.0;     ///< 0: 1.5 x refill_power_W / battery_voltage_V
    double battery_protection_s = 0.0;
    double battery_short_circuit_A = 0.0;  ///< 0: 4 x battery_protection_A

    bool has_battery() const { return dc_side == "battery"; }
    bool limits_by_voltage() const {
        return limiting_method == "virtual_impedance" || limiting_method == "voltage_foldback";
    }
    /// The same parameters with every "0: derived" filled in.
    InverterParameters completed() const;
    double nominal_voltage_V() const { return voltage_V; }

    static const ParameterTable<InverterParameters>& table();
    static const WordTable<InverterParameters>& word_table();
    /// One sentence that says what is wrong between fields that are each in bounds; empty if none.
    std::string_view inconsistency() const;

  private:
    std::string_view limiting_inconsistency() const;
    std::string_view overload_inconsistency() const;
    std::string_view battery_inconsistency() const;
};

}  // namespace plant_models
