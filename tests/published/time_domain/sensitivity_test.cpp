// Would the comparison with the circuit simulator notice a mistake? The yardstick and the netlist
// under test: one parameter off by 1 % or one wrong sign must take the line currents further apart
// than the direct start of the reference motor has to keep, 1e-4. Most mistakes pass even 0.5 %.
// Both sides are compared in the middle of a start: at rest and when steady, signs hide.
#include <gtest/gtest.h>

#include <string>

#include "plant_waveforms.hpp"
#include "published_motors.hpp"
#include "waveform.hpp"

namespace {

using namespace published;
using plant_models::MotorParameters;

constexpr double duration_s = 0.65;
constexpr double tolerance = 1e-4;
constexpr double plain_to_see = 0.005;
constexpr double step_s = 20e-6;

MotorCircuit reference_circuit() {
    MotorCircuit circuit;
    circuit.motor = reference_motor();
    circuit.grid = reference_grid();
    circuit.load = reference_load();
    return circuit;
}

MotorWaveforms ours(const MotorCircuit& circuit) {
    return direct_start(direct_plant(circuit), duration_s, nanoseconds(step_s));
}

MotorWaveforms theirs(const std::string& netlist, double simulated_s) {
    TransientSettings settings;
    settings.duration_s = simulated_s;
    settings.largest_step_s = step_s;
    return simulate_netlist(netlist, settings);
}

double line_current_difference(const MotorWaveforms& one, const MotorWaveforms& other,
                               double until_s) {
    return relative_rms_difference({one.time_s, one.line_current_A},
                                   {other.time_s, other.line_current_A}, 0.0, until_s, step_s);
}

TEST(Sensitivity, OnePerCentOfAnyParameterIsNoticed) {
    const MotorWaveforms reference = theirs(motor_netlist(reference_circuit()), duration_s);
    const auto difference = [&](const MotorCircuit& circuit) {
        return line_current_difference(ours(circuit), reference, duration_s - 1e-3);
    };
    ASSERT_LT(difference(reference_circuit()), tolerance);
    struct Row {
        const char* name;
        double MotorParameters::*member;
        double least;
    };
    for (const Row& row :
         {Row{"main resistance", &MotorParameters::main_resistance_ohm, plain_to_see},
          Row{"main leakage", &MotorParameters::main_leakage_reactance_ohm, plain_to_see},
          Row{"auxiliary resistance", &MotorParameters::aux_resistance_ohm, tolerance},
          Row{"auxiliary leakage", &MotorParameters::aux_leakage_reactance_ohm, tolerance},
          Row{"turns ratio", &MotorParameters::turns_ratio, plain_to_see},
          Row{"rotor resistance", &MotorParameters::rotor_resistance_ohm, plain_to_see},
          Row{"rotor leakage", &MotorParameters::rotor_leakage_reactance_ohm, plain_to_see},
          Row{"magnetizing", &MotorParameters::magnetizing_reactance_ohm, tolerance},
          Row{"inertia", &MotorParameters::inertia_kg_m2, plain_to_see},
          Row{"run capacitor", &MotorParameters::run_capacitor_uF, plain_to_see}}) {
        MotorCircuit circuit = reference_circuit();
        circuit.motor.*row.member *= 1.01;
        EXPECT_GT(difference(circuit), row.least) << row.name;
    }
}

std::string with(std::string netlist, const std::string& old_text, const std::string& new_text) {
    const std::size_t at = netlist.find(old_text);
    if (at == std::string::npos) {
        ADD_FAILURE() << "the netlist has no " << old_text;
        return netlist;
    }
    return netlist.replace(at, old_text.size(), new_text);
}

TEST(Sensitivity, AWrongSignInTheNetlistIsNoticedWithinATenthOfASecond) {
    constexpr double until_s = 0.1;
    const std::string right = motor_netlist(reference_circuit());
    const MotorWaveforms own = ours(reference_circuit());
    ASSERT_LT(line_current_difference(own, theirs(right, until_s), until_s - 1e-3), tolerance);
    // Speed voltage of either rotor circuit, coupling of the auxiliary winding, torque.
    for (const std::string& wrong : {with(right, "brm rm3 0 v=-", "brm rm3 0 v="),
                                     with(right, "bra ra3 0 v=", "bra ra3 0 v=-"),
                                     with(right, "kaux laux lra ", "kaux laux lra -"),
                                     with(right, "btorque torque 0 v=", "btorque torque 0 v=-")}) {
        EXPECT_GT(line_current_difference(own, theirs(wrong, until_s), until_s - 1e-3),
                  plain_to_see);
    }
}

// A motor with its auxiliary winding turned round is the same motor running backwards: the line
// current cannot tell, the speed can.
TEST(Sensitivity, AnAuxiliaryTurnedRoundShowsInTheSpeedOnly) {
    MotorCircuit turned = reference_circuit();
    turned.motor.turns_ratio = -turned.motor.turns_ratio;
    const MotorWaveforms own = ours(reference_circuit());
    const MotorWaveforms other = theirs(motor_netlist(turned), duration_s);
    EXPECT_LT(line_current_difference(own, other, duration_s - 1e-3), tolerance);
    EXPECT_GT(relative_rms_difference({own.time_s, own.speed_rad_per_s},
                                      {other.time_s, other.speed_rad_per_s}, 0.0, duration_s - 1e-3,
                                      step_s),
              1.9);
}

}  // namespace
