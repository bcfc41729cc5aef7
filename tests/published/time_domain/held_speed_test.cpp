// Our plant held at constant speed settles to the phasor solution of the same motor, which has no
// differential equation and no matrix of windings in it. Source of the phasors: double-revolving
// field theory (steady_state.hpp). Certainty: computed; two ways of ours to the same numbers.
#include <gtest/gtest.h>

#include <cmath>
#include <complex>
#include <string>

#include "plant_models/motor/steady_state.hpp"
#include "plant_waveforms.hpp"
#include "published_motors.hpp"
#include "waveform.hpp"

namespace {

using namespace published;

constexpr sim::Instant sampling{20'000};
/// A dozen, from running light to driven against the field.
constexpr double slips[] = {-0.05, 0.01, 0.03, 0.06, 0.1, 0.2, 0.35, 0.5, 0.7, 0.9, 1.0, 1.5};

void expect_phasors(const MotorCircuit& circuit, double slip) {
    SCOPED_TRACE("slip " + std::to_string(slip));
    const double frequency = circuit.grid.frequency_Hz;
    auto auxiliary = run_connection(circuit.motor);
    auxiliary.start = circuit.start_capacitor;
    const auto expected = steady_state(circuit.motor,
                                       {circuit.grid.voltage_V, frequency,
                                        circuit.grid.resistance_ohm, circuit.grid.inductance_mH},
                                       auxiliary, slip);

    sim::PlantDescription plant = limiter_plant(circuit);
    plant.motor.inertia_kg_m2 = 1e9;
    plant.initial_speed_rad_per_s = expected.speed_rad_per_s;
    // At rest it is the load that holds it.
    plant.load =
        plant_models::PolynomialLoadParameters{slip == 1.0 ? 500.0 : 0.0, 0.0, 0.0, 1000.0};
    const auto run = sim::make_plant_run(plant);
    sim::PowerCommands commands = line_closed();
    commands.bypass_coil = true;
    commands.start_capacitor_coil = circuit.start_capacitor.has_value();
    run->apply(commands);
    const double settled_s = 150.0 / frequency;
    const double end_s = 151.0 / frequency;
    run->advance_to(nanoseconds(settled_s));
    MotorWaveforms waves;
    record(*run, nanoseconds(end_s) + 2 * sampling, sampling, waves);

    const auto rms = [&](const std::vector<double>& value) {
        return std::abs(fundamental({waves.time_s, value}, frequency, settled_s));
    };
    const auto expect = [](double value, double phasors, const char* what) {
        EXPECT_NEAR(value, phasors, 1e-3 * std::abs(phasors)) << what;
    };
    expect(rms(waves.line_current_A), std::abs(expected.line_current_A), "line current");
    expect(rms(waves.main_current_A), std::abs(expected.main_current_A), "main current");
    expect(rms(waves.aux_current_A), std::abs(expected.aux_current_A), "auxiliary current");
    expect(mean({waves.time_s, waves.torque_Nm}, settled_s, end_s), expected.torque_Nm, "torque");
}

void expect_phasors_at_a_dozen_slips(const MotorCircuit& circuit) {
    for (const double slip : slips) {
        expect_phasors(circuit, slip);
    }
}

TEST(HeldSpeed, ReferenceMotorSettlesToThePhasors) {
    MotorCircuit circuit;
    circuit.motor = reference_motor();
    circuit.grid = reference_grid();
    expect_phasors_at_a_dozen_slips(circuit);
}

TEST(HeldSpeed, SecondMotorAt50HzSettlesToThePhasors) {
    MotorCircuit circuit;
    circuit.motor = second_motor();
    circuit.grid = second_grid();
    expect_phasors_at_a_dozen_slips(circuit);
}

TEST(HeldSpeed, PermanentCapacitorMotorSettlesToThePhasors) {
    MotorCircuit circuit;
    circuit.motor = permanent_capacitor_motor();
    circuit.grid = {230.0, 60.0, 0.0, 0.0, 0.0};
    expect_phasors_at_a_dozen_slips(circuit);
}

TEST(HeldSpeed, QuarterHorsepowerMotorOnItsStartCapacitorSettlesToThePhasors) {
    MotorCircuit circuit;
    circuit.motor = quarter_horsepower_motor();
    circuit.grid = {110.0, 60.0, 0.2, 0.3, 20.0};
    circuit.start_capacitor = plant_models::CapacitorBranch{183.0, 3.0};
    expect_phasors_at_a_dozen_slips(circuit);
}

// Both capacitors, and a supply whose frequency is not the rated one.
TEST(HeldSpeed, ReferenceMotorAt50HzWithBothCapacitorsSettlesToThePhasors) {
    MotorCircuit circuit;
    circuit.motor = reference_motor();
    circuit.grid = {200.0, 50.0, 0.3, 0.5, 0.0};
    circuit.start_capacitor = plant_models::CapacitorBranch{130.0, 0.15};
    expect_phasors_at_a_dozen_slips(circuit);
}

}  // namespace
