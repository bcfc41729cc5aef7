// Direct starts against the circuit simulator, which is run inside the test. It shares neither code
// nor method with our plant: coupled inductors, behavioural sources, trapezoidal rule.
// Certainty of the reference: computed, independently. One thing is written differently there: dry
// friction is a steep tanh, so that a held rotor creeps (motor_netlist.hpp).
#include <gtest/gtest.h>

#include <cmath>

#include "plant_waveforms.hpp"
#include "printed_number.hpp"
#include "published_motors.hpp"
#include "waveform.hpp"

namespace {

using namespace published;

constexpr sim::Instant sampling{20'000};
constexpr double sampling_s = 20e-6;

struct Start {
    Start(const MotorCircuit& motor_circuit, double duration)
        : circuit(motor_circuit),
          duration_s(duration),
          ours(direct_start(direct_plant(circuit), duration, sampling)),
          theirs(simulate(circuit, settings(duration))) {}

    static TransientSettings settings(double duration) {
        TransientSettings result;
        result.duration_s = duration;
        result.largest_step_s = sampling_s;
        return result;
    }
    double difference(std::vector<double> MotorWaveforms::*signal) const {
        return relative_rms_difference({ours.time_s, ours.*signal}, {theirs.time_s, theirs.*signal},
                                       0.0, duration_s - sampling_s, sampling_s);
    }
    double speed_at_the_end(const MotorWaveforms& waves) const {
        return mean({waves.time_s, waves.speed_rad_per_s}, duration_s - 0.1,
                    duration_s - sampling_s);
    }
    /// Share of the terminal voltage that the iron current drops across the source. Our plant
    /// leaves that drop out, the netlist has it.
    double neglected_share() const {
        const plant_models::MotorParameters& motor = circuit.motor;
        const double omega = 2.0 * 3.14159265358979323846 * circuit.grid.frequency_Hz;
        return std::hypot(circuit.grid.resistance_ohm, 1e-3 * omega * circuit.grid.inductance_mH) *
               motor.iron_loss_W / (motor.rated_voltage_V * motor.rated_voltage_V);
    }

    MotorCircuit circuit;
    double duration_s;
    MotorWaveforms ours;
    MotorWaveforms theirs;
};

/// Tolerances: what sampling and the simulator's own error explain, and beyond that the neglected
/// share of the voltage. Currents go with it, run-up time and slip with its square; a run-up that
/// comes that much later shifts the whole waveform. All stay below the 0.5 % of everything else.
void expect_agreement(const Start& start) {
    const double neglected = start.neglected_share();
    const double synchronous =
        start.circuit.motor.synchronous_speed_rad_per_s(start.circuit.grid.frequency_Hz);

    const Peak peak = largest_magnitude({start.ours.time_s, start.ours.line_current_A});
    const Peak their_peak = largest_magnitude({start.theirs.time_s, start.theirs.line_current_A});
    EXPECT_NEAR(peak.value, their_peak.value, (1e-4 + neglected) * std::abs(their_peak.value));
    EXPECT_NEAR(peak.time_s, their_peak.time_s, sampling_s);

    const auto time_up = [&](const MotorWaveforms& waves) {
        return first_rise_through({waves.time_s, waves.speed_rad_per_s}, 0.9 * synchronous);
    };
    const double their_time_up = time_up(start.theirs);
    EXPECT_NEAR(time_up(start.ours), their_time_up, (1e-4 + 2.0 * neglected) * their_time_up);

    const double their_end = start.speed_at_the_end(start.theirs);
    EXPECT_NEAR(start.speed_at_the_end(start.ours), their_end,
                1e-5 * their_end + 2.0 * neglected * (synchronous - their_end));

    const double waveform_tolerance = 1e-4 + 4.0 * neglected;
    ASSERT_LT(waveform_tolerance, 0.005);
    EXPECT_LT(start.difference(&MotorWaveforms::line_current_A), waveform_tolerance);
    EXPECT_LT(start.difference(&MotorWaveforms::main_current_A), waveform_tolerance);
    EXPECT_LT(start.difference(&MotorWaveforms::aux_current_A), waveform_tolerance);
    EXPECT_LT(start.difference(&MotorWaveforms::speed_rad_per_s), 0.005);
    EXPECT_LT(start.difference(&MotorWaveforms::s_voltage_V), 0.005);
    EXPECT_LT(start.difference(&MotorWaveforms::torque_Nm), 0.005);
}

TEST(DirectStart, OfTheReferenceMotorIsTheCircuitSimulators) {
    MotorCircuit circuit;
    circuit.motor = reference_motor();
    circuit.grid = reference_grid();
    circuit.load = reference_load();
    const Start start(circuit, 2.0);
    expect_agreement(start);
    // Certainty: computed earlier by the same simulator from a netlist of other hands.
    const Peak peak = largest_magnitude({start.ours.time_s, start.ours.line_current_A});
    EXPECT_TRUE(rounds_to(std::abs(peak.value), 128.28, 2));
    EXPECT_NEAR(peak.time_s, 6.18e-3, sampling_s);
    EXPECT_TRUE(
        rounds_to(Waveform{start.ours.time_s, start.ours.speed_rad_per_s}.at(1.99), 367.74, 2));
}

TEST(DirectStart, OfTheSecondMotorIsTheCircuitSimulators) {
    MotorCircuit circuit;
    circuit.motor = second_motor();
    circuit.grid = second_grid();
    circuit.load = second_load();
    const Start start(circuit, 1.2);
    expect_agreement(start);
}

}  // namespace
