// The motor of a test as a netlist for the circuit simulator: coupled inductors for the four
// windings, behavioural sources for the rotor's speed voltages, a capacitor for the inertia.
//
//   circuit quantity              | machine quantity
//   node "line"                   | line terminal after the source's R and L; 0 is the return
//   node "speed", volt            | shaft speed, rad/s
//   capacitor at "speed", farad   | inertia, kg m^2
//   current into "speed", ampere  | torque, N m
//   K = M / sqrt(L1 L2)           | mutual inductances L_m and n L_m of motor_equations.hpp
//
// The resting rotor cannot be exact in a circuit simulator: dry friction is a steep tanh of the
// speed, and the step from breakaway to running friction is spread over a few hundredths of a
// radian per second. A held rotor therefore creeps, by less than 0.002 rad/s.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "circuit_simulator.hpp"
#include "plant_models/loads/polynomial.hpp"
#include "plant_models/motor/motor_parameters.hpp"
#include "plant_models/motor/steady_state.hpp"
#include "plant_models/supplies/grid.hpp"

namespace published {

/// Anti-parallel thyristors in series with the main winding. Each half has a long gate pulse, from
/// the firing angle to 175 degrees of its half cycle, counted on the source's open-circuit voltage,
/// and then conducts until its current falls to zero. Needs a source phase of 0.
struct ThyristorPair {
    double firing_angle_deg = 90.0;  ///< above 0, below 175
    double threshold_V = 0.0;        ///< on-state drop at vanishing current
    double slope_ohm = 0.0;          ///< on-state drop per ampere
};

struct MotorCircuit {
    plant_models::MotorParameters motor;
    plant_models::GridParameters grid;
    plant_models::PolynomialLoadParameters load;                   ///< of no effect at a held speed
    std::optional<plant_models::CapacitorBranch> start_capacitor;  ///< permanently in
    std::optional<ThyristorPair> thyristors;
    std::optional<double> held_speed_rad_per_s;  ///< 0 is a locked rotor
};

/// Everything at the simulator's own time points. Currents positive into the motor.
struct MotorWaveforms {
    std::vector<double> time_s;
    std::vector<double> line_current_A;  ///< iron loss included
    std::vector<double> main_current_A;
    std::vector<double> aux_current_A;
    std::vector<double> line_voltage_V;  ///< after the source's R and L
    std::vector<double> s_voltage_V;     ///< across the auxiliary winding
    std::vector<double> speed_rad_per_s;
    std::vector<double> torque_Nm;  ///< electromagnetic
};

/// @throws std::invalid_argument for a thyristor pair with a source phase other than 0.
std::string motor_netlist(const MotorCircuit& circuit);

/// @throws std::runtime_error when the simulator is missing or fails.
MotorWaveforms simulate(const MotorCircuit& circuit, const TransientSettings& settings);

/// The same from the text of a netlist with the node and source names of motor_netlist().
MotorWaveforms simulate_netlist(const std::string& netlist, const TransientSettings& settings);

}  // namespace published
