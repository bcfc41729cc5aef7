// Would the comparison with the circuit simulator notice a mistake? The yardstick and the netlist
// under test: one parameter off by 1 % or one wrong sign must take the waveforms further apart than
// the 0.5 % that the direct starts have to keep.
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
constexpr double tolerance = 0.005;

MotorCircuit reference_circuit() {
    MotorCircuit circuit;
    circuit.motor = reference_motor();
    circuit.grid = reference_grid();
    circuit.load = reference_load();
    return circuit;
}

MotorWaveforms ours(const MotorCircuit& circuit) {
    return direct_start(direct_plant(circuit), duration_s, sim::Instant(50'000));
}

MotorWaveforms theirs(const std::string& netlist, double simulated_s) {
    TransientSettings settings;
    settings.duration_s = simulated_s;
    settings.largest_step_s = 50e-6;
    return simulate_netlist(netlist, settings);
}

double line_current_difference(const MotorWaveforms& one, const MotorWaveforms& other,
                               double until_s) {
    return relative_rms_difference({one.time_s, one.line_current_A},
                                   {other.time_s, other.line_current_A}, 0.0, until_s, 50e-6);
}

TEST(Sensitivity, OnePerCentOfAnyParameterThatShapesTheStartIsNoticed) {
    const MotorWaveforms reference = theirs(motor_netlist(reference_circuit()), duration_s);
    const auto difference = [&](const MotorCircuit& circuit) {
        return line_current_difference(ours(circuit), reference, duration_s - 1e-3);
    };
    ASSERT_LT(difference(reference_circuit()), 0.1 * tolerance);
    struct Row {
        const char* name;
        double MotorParameters::*member;
    };
    for (const Row& row :
         {Row{"main resistance", &MotorParameters::main_resistance_ohm},
          Row{"main leakage", &MotorParameters::main_leakage_reactance_ohm},
          Row{"auxiliary resistance", &MotorParameters::aux_resistance_ohm},
          Row{"auxiliary leakage", &MotorParameters::aux_leakage_reactance_ohm},
          Row{"turns ratio", &MotorParameters::turns_ratio},
          Row{"rotor resistance", &MotorParameters::rotor_resistance_ohm},
          Row{"rotor leakage", &MotorParameters::rotor_leakage_reactance_ohm},
          Row{"magnetizing", &MotorParameters::magnetizing_reactance_ohm},
          Row{"inertia", &MotorParameters::inertia_kg_m2},
          Row{"run capacitor", &MotorParameters::run_capacitor_uF}}) {
        MotorCircuit circuit = reference_circuit();
        circuit.motor.*row.member *= 1.01;
        printf("%s %g\n", row.name, difference(circuit));
        EXPECT_GT(difference(circuit), tolerance) << row.name;
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
    ASSERT_LT(line_current_difference(own, theirs(right, until_s), until_s - 1e-3),
              0.1 * tolerance);
    // Speed voltage of either rotor circuit, coupling of the auxiliary winding, torque.
    for (const std::string& wrong :
         {with(right, "brm rm3 0 v=-", "brm rm3 0 v="), with(right, "bra ra3 0 v=", "bra ra3 0 v=-"),
          with(right, "kaux laux lra ", "kaux laux lra -"),
          with(right, "btorque torque 0 v=", "btorque torque 0 v=-")}) {
         printf("%g\n",line_current_difference(own, theirs(wrong, until_s), until_s - 1e-3));
        EXPECT_GT(line_current_difference(own, theirs(wrong, until_s), until_s - 1e-3), tolerance);
    }
}

// A motor with its auxiliary winding turned round is the same motor running backwards: the line
// current cannot tell, the speed can.
TEST(Sensitivity, AuxiliaryTurnedRoundShowsInTheSpeedOnly) {
    MotorCircuit turned = reference_circuit();
    turned.motor.turns_ratio = -turned.motor.turns_ratio;
    const MotorWaveforms own = ours(reference_circuit());
    const MotorWaveforms other = theirs(motor_netlist(turned), duration_s);
    EXPECT_LT(line_current_difference(own, other, duration_s - 1e-3), tolerance);
    EXPECT_GT(relative_rms_difference({own.time_s, own.speed_rad_per_s},
                                      {other.time_s, other.speed_rad_per_s}, 0.0,
                                      duration_s - 1e-3, 50e-6),
              1.9);
}

}  // namespace
