// Table [limits]: what the monitors hold the controller to. They are judged on the plant's truth,
// not on what the controller measured.
//
// The defaults are engineering judgement for a hermetic compressor: rating of a common start
// capacitor, withstand of a locked rotor, and the rest that lets the pressures equalise. The
// winding's is that of a sealed motor-compressor with synthetic insulation under a locked-rotor
// test (IEC 60335-2-34; recalled, not seen).
#pragma once

#include <string_view>

#include "plant_models/parameter_table.hpp"

namespace sim {

struct SafetyLimits {
    double start_capacitor_max_s = 0.0;         ///< longest time that it may stay in, per start
    double standing_rotor_max_s = 0.0;          ///< longest time that a standing rotor may be fed
    double minimum_rest_s = 0.0;                ///< shortest time from letting go to the next try
    double bypass_minimum_speed_percent = 0.0;  ///< of synchronous speed
    double bypass_reaction_s = 0.0;  ///< for opening the bypass after the speed has fallen below it
    double supply_low_percent = 0.0;   ///< RMS, of the motor's rated voltage
    double supply_high_percent = 0.0;  ///< RMS, of the motor's rated voltage
    double winding_max_C = 0.0;        ///< of the stator's windings
    double supply_frequency_low_Hz = 0.0;
    double supply_frequency_high_Hz = 0.0;
    double supply_reaction_s =
        0.0;  ///< for ending the gate pulses after the supply left its limits

    static const plant_models::ParameterTable<SafetyLimits>& table();
    /// One sentence that says what is wrong between fields that are each in bounds; empty if none.
    std::string_view inconsistency() const;
};

}  // namespace sim
