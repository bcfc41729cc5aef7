// Starts to experiment on: the bundled scenarios, and a family of invented motors.
#pragma once

#include <ostream>
#include <string>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace sim_test {

/// The bundled scenario of this name.
sim::Scenario bundled(const std::string& name);
/// Names of all bundled scenarios, sorted.
std::vector<std::string> bundled_names();

/// An invented motor of a class, worked out from its nameplate. Impedances are shares of
/// rated voltage / locked-rotor current, so that a table of them can be read.
struct InventedMotor {
    const char* name;
    double voltage_V;
    double frequency_Hz;
    int poles;
    double locked_rotor_A;  ///< of the main winding, nearly
    double main_resistance;
    double main_reactance;
    double aux_resistance;
    double aux_reactance;
    double turns_ratio;
    double rotor_resistance;
    double rotor_reactance;
    double magnetizing_reactance;
    double inertia_kg_m2;
    double run_capacitor_uF;
    double start_capacitor_uF;
    double breakaway_share;  ///< of the rated torque, 0.10 to 0.25 with the pressures equalised
    /// Iron, friction and windage, of the rated power.
    double loss_share;
};

const std::vector<InventedMotor>& invented_motors();

/// How the test framework prints one.
inline void PrintTo(const InventedMotor& motor, std::ostream* out) {
    *out << motor.name;
}

/// Mean torque at the working point: the trade's five times as much current with the rotor locked,
/// power factor 0.95, efficiency 0.78.
double rated_torque_Nm(const InventedMotor& motor);

/// The motor through the limiter with its default settings, on a grid of 3 % impedance, for 3 s.
sim::Scenario limited_start(const InventedMotor& motor);

/// The same scenario on an inverter that limits at this peak; its other values are the defaults.
sim::Scenario on_inverter(sim::Scenario scenario, double peak_current_limit_A);

/// The limiter's parts and settings, for tests that change them.
sim::BuiltinLimiter& limiter_of(sim::Scenario& scenario);

}  // namespace sim_test
