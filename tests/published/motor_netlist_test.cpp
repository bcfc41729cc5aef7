// The oracle itself under test: the motor in the circuit simulator against phasors, against a
// closed form, and against what an earlier, independent netlist gave. None of our time-domain code
// takes part.
#include "motor_netlist.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>

#include "plant_models/motor/steady_state.hpp"
#include "printed_number.hpp"
#include "published_motors.hpp"
#include "waveform.hpp"

namespace {

using namespace published;
using Phasor = std::complex<double>;

constexpr double pi = 3.14159265358979323846;

TransientSettings settings(double duration_s, double largest_step_s = 20e-6) {
    TransientSettings result;
    result.duration_s = duration_s;
    result.largest_step_s = largest_step_s;
    return result;
}

MotorCircuit reference_circuit() {
    MotorCircuit circuit;
    circuit.motor = reference_motor();
    circuit.grid = reference_grid();
    circuit.load = reference_load();
    return circuit;
}

MotorCircuit second_circuit() {
    MotorCircuit circuit;
    circuit.motor = second_motor();
    circuit.grid = second_grid();
    circuit.load = second_load();
    return circuit;
}

plant_models::SinusoidalSupply supply_of(const plant_models::GridParameters& grid) {
    return {grid.voltage_V, grid.frequency_Hz, grid.resistance_ohm, grid.inductance_mH};
}

void expect_phasors(MotorCircuit circuit, double slip) {
    SCOPED_TRACE("slip " + std::to_string(slip));
    const double frequency = circuit.grid.frequency_Hz;
    auto auxiliary = run_connection(circuit.motor);
    auxiliary.start = circuit.start_capacitor;
    const auto point = steady_state(circuit.motor, supply_of(circuit.grid), auxiliary, slip);
    circuit.held_speed_rad_per_s = point.speed_rad_per_s;
    const double periods = 75.0;
    const MotorWaveforms waves = simulate(circuit, settings(periods / frequency));
    const double last = (periods - 1.0) / frequency;
    const Phasor turn = std::polar(1.0, circuit.grid.phase_deg * pi / 180.0);
    const auto expect = [&](const std::vector<double>& value, Phasor expected) {
        const Phasor actual = fundamental({waves.time_s, value}, frequency, last);
        EXPECT_LT(std::abs(actual - expected * turn), 1e-4 * std::abs(expected))
            << actual / turn << " against " << expected;
    };
    expect(waves.line_current_A, point.line_current_A);
    expect(waves.main_current_A, point.main_current_A);
    expect(waves.aux_current_A, point.aux_current_A);
    expect(waves.line_voltage_V, point.terminal_voltage_V);
    expect(waves.s_voltage_V, point.s_voltage_V);
    EXPECT_NEAR(mean({waves.time_s, waves.torque_Nm}, last, periods / frequency), point.torque_Nm,
                5e-4 * std::abs(point.torque_Nm));
}

TEST(MotorNetlist, HeldAtAnySpeedTheReferenceMotorSettlesToThePhasors) {
    for (const double slip : {0.05, 0.5, 1.0, 1.6}) {
        expect_phasors(reference_circuit(), slip);
    }
}

TEST(MotorNetlist, HeldAtAnySpeedTheSecondMotorSettlesToThePhasors) {
    for (const double slip : {0.04, 0.4, 1.0, 1.3}) {
        expect_phasors(second_circuit(), slip);
    }
}

TEST(MotorNetlist, StartCapacitorIsInParallelWithTheRunCapacitor) {
    MotorCircuit circuit = second_circuit();
    circuit.start_capacitor = plant_models::CapacitorBranch{100.0, 0.2};
    expect_phasors(circuit, 0.7);
}

// Certainty: computed earlier by the same simulator from a netlist of other hands; a cross-check.
// The peak and the speed at 1.99 s must come out as printed. The run-up time (0.5581 s there) is
// 0.17 % from ours: it hangs on how dry friction is written for a rotor that rocks back and forth
// in its first cycles, and the earlier netlist is not at hand. Ideal dry friction gives 0.5572 s,
// as the next test requires.
TEST(MotorNetlist, DirectStartOfTheReferenceCaseMatchesTheEarlierRun) {
    const MotorWaveforms waves = simulate(reference_circuit(), settings(2.0));
    const Peak peak = largest_magnitude({waves.time_s, waves.line_current_A});
    EXPECT_TRUE(rounds_to(std::abs(peak.value), 128.28, 2));
    EXPECT_NEAR(peak.time_s, 6.18e-3, 20e-6);
    EXPECT_TRUE(rounds_to(Waveform{waves.time_s, waves.speed_rad_per_s}.at(1.99), 367.74, 2));
    const double up = first_rise_through({waves.time_s, waves.speed_rad_per_s}, 339.3);
    EXPECT_NEAR(up, 0.5581, 0.002 * 0.5581);
}

TEST(MotorNetlist, RunUpTimeDependsNeitherOnTheStepNorOnTheIntegrationMethod) {
    TransientSettings coarse = settings(0.6);
    TransientSettings fine = settings(0.6, 5e-6);
    fine.integration = "gear";
    double time[2];
    int k = 0;
    for (const TransientSettings& run : {coarse, fine}) {
        const MotorWaveforms waves = simulate(reference_circuit(), run);
        time[k++] = first_rise_through({waves.time_s, waves.speed_rad_per_s}, 339.3);
    }
    EXPECT_NEAR(time[0], time[1], 50e-6);
}

TEST(MotorNetlist, FinalSpeedIsWhereThePhasorTorqueMeetsTheLoad) {
    const MotorCircuit circuit = second_circuit();
    const MotorWaveforms waves = simulate(circuit, settings(1.0));
    const double speed = mean({waves.time_s, waves.speed_rad_per_s}, 0.9, 1.0);
    const double synchronous = circuit.motor.synchronous_speed_rad_per_s(50.0);
    const auto point = steady_state(circuit.motor, supply_of(circuit.grid),
                                    run_connection(circuit.motor), 1.0 - speed / synchronous);
    const double relative = speed * 30.0 / pi / circuit.load.reference_speed_rpm;
    const double load_W = speed * (circuit.load.constant_torque_Nm +
                                   circuit.load.square_torque_Nm * relative * relative);
    EXPECT_GT(speed, 0.95 * synchronous);
    // The speed pulsates a little at 100 Hz, which phasors do not know.
    EXPECT_NEAR(load_W, point.shaft_power_W, 0.003 * load_W);
}

TEST(MotorNetlist, RotorStaysWhenTheBreakawayTorqueIsTooLarge) {
    MotorCircuit circuit = reference_circuit();
    circuit.load.breakaway_torque_Nm = 12.0;
    const MotorWaveforms held = simulate(circuit, settings(0.2));
    EXPECT_GT(largest_magnitude({held.time_s, held.torque_Nm}).value, 2.0);
    EXPECT_LT(std::abs(largest_magnitude({held.time_s, held.speed_rad_per_s}).value), 0.002);
    circuit.load.breakaway_torque_Nm = 2.0;
    const MotorWaveforms freed = simulate(circuit, settings(0.2));
    EXPECT_GT(freed.speed_rad_per_s.back(), 1.0);
}

// A main winding with its rotor circuit open and no auxiliary is a resistance and an inductance,
// for which phase control has a closed form in every half cycle:
// i = sqrt(2) V / Z [sin(x - phi) - sin(alpha - phi) exp(-(x - alpha) / tan phi)].
TEST(MotorNetlist, ThyristorCurrentIsTheClosedFormOfAResistanceAndAnInductance) {
    MotorCircuit circuit = reference_circuit();
    circuit.motor.magnetizing_reactance_ohm = 1.0;
    circuit.motor.rotor_resistance_ohm = 1e7;
    circuit.motor.run_capacitor_uF = 0.0;
    circuit.held_speed_rad_per_s = 0.0;
    const double omega = 2.0 * pi * 60.0;
    const double resistance = 0.55 + 0.08;
    const double reactance = 1.05 + 1.0 + omega * 0.15e-3;
    const double lag = std::atan2(reactance, resistance);
    const double amplitude = std::sqrt(2.0) * 230.0 / std::hypot(resistance, reactance);
    for (const double alpha_deg : {85.0, 120.0}) {
        SCOPED_TRACE(alpha_deg);
        const double alpha = alpha_deg * pi / 180.0;
        circuit.thyristors = ThyristorPair{alpha_deg, 0.0, 0.0};
        const MotorWaveforms waves = simulate(circuit, settings(0.05, 5e-6));
        const auto form = [&](double x) {
            return amplitude * (std::sin(x - lag) -
                                std::sin(alpha - lag) * std::exp(-(x - alpha) / std::tan(lag)));
        };
        double extinction = alpha + 0.1;
        while (form(extinction) > 0.0) {
            extinction += 1e-4;
        }
        ASSERT_LT(extinction, alpha + pi);
        double largest_error = 0.0;
        for (std::size_t k = 0; k < waves.time_s.size(); ++k) {
            const double angle = omega * waves.time_s[k];
            const double half_cycle = std::floor((angle - alpha) / pi);
            const double x = angle - half_cycle * pi;
            double expected = half_cycle >= 0.0 && x < extinction ? form(x) : 0.0;
            expected *= std::fmod(half_cycle, 2.0) == 0.0 ? 1.0 : -1.0;
            largest_error = std::max(largest_error, std::abs(waves.main_current_A[k] - expected));
        }
        EXPECT_LT(largest_error, 1e-3 * amplitude);
    }
}

TEST(MotorNetlist, ThyristorsThatFireBeforeTheCurrentEndsLeaveTheMotorOnTheLine) {
    MotorCircuit circuit = reference_circuit();
    circuit.held_speed_rad_per_s = 0.0;
    const MotorWaveforms direct = simulate(circuit, settings(0.5));
    circuit.thyristors = ThyristorPair{20.0, 0.0, 0.0};
    const MotorWaveforms gated = simulate(circuit, settings(0.5));
    EXPECT_LT(relative_rms_difference({gated.time_s, gated.line_current_A},
                                      {direct.time_s, direct.line_current_A}, 0.4, 0.5, 10e-6),
              1e-3);
}

TEST(MotorNetlist, LaterFiringLeavesTheLockedRotorLessCurrentAndTheAuxiliaryOnTheLine) {
    MotorCircuit circuit = reference_circuit();
    circuit.held_speed_rad_per_s = 0.0;
    circuit.start_capacitor = plant_models::CapacitorBranch{130.0, 0.15};
    double previous = 1e9;
    for (const double alpha_deg : {75.0, 95.0, 115.0}) {
        SCOPED_TRACE(alpha_deg);
        circuit.thyristors = ThyristorPair{alpha_deg, 1.0, 0.004};
        const MotorWaveforms waves = simulate(circuit, settings(0.3));
        const double main = std::abs(fundamental({waves.time_s, waves.main_current_A}, 60.0, 0.28));
        const double aux = std::abs(fundamental({waves.time_s, waves.aux_current_A}, 60.0, 0.28));
        EXPECT_LT(main, 0.9 * previous);
        EXPECT_GT(aux, 10.0);
        previous = main;
    }
}

}  // namespace
