// Parameters of a single-phase induction motor with a main and an auxiliary winding in quadrature.
//
// All rotor quantities are referred to the main winding. Reactances are at rated frequency.
// The equations that use them are in motor_equations.hpp.
#pragma once

#include <string_view>

#include "plant_models/parameter_table.hpp"

namespace plant_models {

struct MotorParameters {
    int poles = 2;
    double rated_voltage_V = 0.0;
    double rated_frequency_Hz = 0.0;
    double main_resistance_ohm = 0.0;
    double main_leakage_reactance_ohm = 0.0;
    double aux_resistance_ohm = 0.0;
    double aux_leakage_reactance_ohm = 0.0;
    double turns_ratio = 1.0;  ///< effective turns auxiliary / main
    double rotor_resistance_ohm = 0.0;
    double rotor_leakage_reactance_ohm = 0.0;
    double magnetizing_reactance_ohm = 0.0;
    double inertia_kg_m2 = 0.0;  ///< rotor plus everything rigidly coupled to it
    /// 0 means no run capacitor.
    double run_capacitor_uF = 0.0;
    double run_capacitor_esr_ohm = 0.0;
    double iron_loss_W = 0.0;      ///< at rated voltage; grows with the square of the voltage
    double friction_loss_W = 0.0;  ///< bearings, at synchronous speed: a constant torque
    double windage_loss_W = 0.0;   ///< at synchronous speed: a torque with the square of the speed

    double rated_angular_frequency_rad_per_s() const;
    /// Synchronous speed of the shaft at a supply frequency.
    double synchronous_speed_rad_per_s(double frequency_Hz) const;

    static const ParameterTable<MotorParameters>& table();
    /// One sentence that says what is wrong between fields that are each in bounds; empty if none.
    std::string_view inconsistency() const;
};

}  // namespace plant_models
