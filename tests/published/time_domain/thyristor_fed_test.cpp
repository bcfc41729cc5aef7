// A locked rotor fed through thyristors at a fixed firing angle, against the circuit simulator run
// inside the test. Certainty of the reference: computed, independently. There a thyristor is a
// conductance over eleven decades that its own current keeps closed; a blocked pair leaks a few
// milliamperes.
#include <gtest/gtest.h>

#include <optional>

#include "plant_waveforms.hpp"
#include "published_motors.hpp"
#include "waveform.hpp"

namespace {

using namespace published;

constexpr double duration_s = 0.25;
constexpr sim::Instant tick{100'000};
constexpr sim::Instant sampling{20'000};

MotorWaveforms ours(const MotorCircuit& circuit) {
    const auto run = sim::make_plant_run(limiter_plant(circuit));
    MotorWaveforms waves;
    while (run->now() < nanoseconds(duration_s)) {
        sim::PowerCommands commands =
            gate_window(*circuit.thyristors, circuit.grid.frequency_Hz, run->now());
        commands.start_capacitor_coil = circuit.start_capacitor.has_value();
        run->apply(commands);
        record(*run, run->now() + tick, sampling, waves);
    }
    return waves;
}

void expect_agreement(double firing_angle_deg,
                      std::optional<plant_models::CapacitorBranch> start_capacitor) {
    MotorCircuit circuit;
    circuit.motor = reference_motor();
    circuit.grid = reference_grid();
    circuit.held_speed_rad_per_s = 0.0;
    circuit.start_capacitor = start_capacitor;
    circuit.thyristors = ThyristorPair{firing_angle_deg, 0.85, 0.008};
    TransientSettings settings;
    settings.duration_s = duration_s;
    settings.largest_step_s = 5e-6;
    const MotorWaveforms own = ours(circuit);
    const MotorWaveforms theirs = simulate(circuit, settings);
    const auto difference = [&](std::vector<double> MotorWaveforms::*signal) {
        return relative_rms_difference({own.time_s, own.*signal}, {theirs.time_s, theirs.*signal},
                                       0.0, duration_s - 20e-6, 10e-6);
    };
    EXPECT_LT(difference(&MotorWaveforms::line_current_A), 0.005);
    EXPECT_LT(difference(&MotorWaveforms::main_current_A), 0.005);
    EXPECT_LT(difference(&MotorWaveforms::aux_current_A), 0.005);
    EXPECT_LT(difference(&MotorWaveforms::torque_Nm), 0.005);
    // The angle must matter: the pair blocks for a while in every half cycle.
    int blocked = 0;
    for (const double current_A : own.main_current_A) {
        blocked += current_A == 0.0;
    }
    const double share = static_cast<double>(blocked) / static_cast<double>(own.time_s.size());
    EXPECT_GT(share, 0.1);
    EXPECT_LT(share, 0.9);
}

TEST(ThyristorFedLockedRotor, FiredEarlyIsTheCircuitSimulators) {
    expect_agreement(75.0, {});
}

TEST(ThyristorFedLockedRotor, FiredLateIsTheCircuitSimulators) {
    expect_agreement(115.0, {});
}

TEST(ThyristorFedLockedRotor, WithTheStartCapacitorInIsTheCircuitSimulators) {
    expect_agreement(95.0, plant_models::CapacitorBranch{130.0, 0.15});
}

}  // namespace
