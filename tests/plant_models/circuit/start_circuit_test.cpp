#include "plant_models/circuit/start_circuit.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <complex>

#include "support/machines.hpp"

namespace {

using plant_models::CircuitCoefficients;
using plant_models::LimiterParameters;
using plant_models::MainPath;
using plant_models::StartCircuit;
using plant_models::StatorConnection;
using plant_models::SwitchPositions;
using Impedance = std::complex<double>;

constexpr double pi = 3.14159265358979323846;
constexpr double series_H = 0.4e-3;

LimiterParameters limiter() {
    return support::table_defaults<LimiterParameters>();
}

CircuitCoefficients<double> at(const SwitchPositions& positions) {
    return StartCircuit(support::lossy_motor(), limiter(), series_H).coefficients(positions);
}

void expect_connection(const CircuitCoefficients<double>& c, StatorConnection expected) {
    const auto inverse = plant_models::inverse_inductances(
        plant_models::winding_inductances(support::lossy_motor(), series_H), expected);
    EXPECT_EQ(c.inverse_inductance, inverse);
}

Impedance capacitor(double capacitance_F, double resistance_ohm, double omega) {
    return {resistance_ohm, -1.0 / (omega * capacitance_F)};
}

// Two RC branches side by side, expanded in omega: one capacitor C1 + C2 with its resistance is
// the first-order term, and w^2 (t1 - t)(t2 - t) is what is left, with t_k = r_k C_k and
// t = (r1 + r2) C1 C2 / (C1 + C2).
TEST(StartCircuit, PairedCapacitorsDifferFromTheExactParallelImpedanceOnlyInSecondOrder) {
    for (const double frequency_Hz : {50.0, 60.0}) {
        for (const double run_esr_ohm : {0.0, 0.4, 3.0}) {
            for (const double start_esr_ohm : {0.005, 0.15, 1.0}) {
                auto motor = support::lossy_motor();
                motor.run_capacitor_esr_ohm = run_esr_ohm;
                auto power = limiter();
                power.start_capacitor_esr_ohm = start_esr_ohm;
                SwitchPositions positions;
                positions.start_capacitor_in = true;
                const auto c = StartCircuit(motor, power, 0.0).coefficients(positions);

                const double omega = 2.0 * pi * frequency_Hz;
                const double C1 = 25e-6;
                const double C2 = 130e-6;
                const Impedance one = capacitor(C1, run_esr_ohm, omega);
                const Impedance other = capacitor(C2, start_esr_ohm, omega);
                const Impedance exact = one * other / (one + other);
                const Impedance model =
                    capacitor(1.0 / c.elastance_per_F, c.capacitor_resistance_ohm, omega);
                const double meeting_s = (run_esr_ohm + start_esr_ohm) * C1 * C2 / (C1 + C2);
                const double second_order =
                    omega * omega *
                    std::abs((run_esr_ohm * C1 - meeting_s) * (start_esr_ohm * C2 - meeting_s));
                EXPECT_LE(std::abs(model - exact) / std::abs(exact), 1.05 * second_order + 1e-14);
            }
        }
    }
}

TEST(StartCircuit, PairOfOrdinaryCapacitorsIsExactToTenPartsInAMillion) {
    const double omega = 2.0 * pi * 60.0;
    SwitchPositions positions;
    positions.start_capacitor_in = true;
    const auto c = at(positions);
    const Impedance one = capacitor(25e-6, 0.4, omega);
    const Impedance other = capacitor(130e-6, 0.15, omega);
    const Impedance exact = one * other / (one + other);
    const Impedance model = capacitor(1.0 / c.elastance_per_F, c.capacitor_resistance_ohm, omega);
    EXPECT_LT(std::abs(model - exact) / std::abs(exact), 1e-5);
}

TEST(StartCircuit, EachCapacitorTakesTheShareOfItsCapacitance) {
    SwitchPositions positions;
    EXPECT_EQ(at(positions).start_capacitor_share, 0.0);
    EXPECT_NEAR(at(positions).elastance_per_F, 1.0 / 25e-6, 1e-6);
    EXPECT_NEAR(at(positions).capacitor_resistance_ohm, 0.4, 1e-15);
    positions.start_capacitor_in = true;
    EXPECT_NEAR(at(positions).start_capacitor_share, 130.0 / 155.0, 1e-15);
    EXPECT_NEAR(at(positions).elastance_per_F, 1.0 / 155e-6, 1e-6);
}

TEST(StartCircuit, EveryPositionOfTheSwitchesGivesItsConnection) {
    for (const MainPath path :
         {MainPath::open, MainPath::thyristor, MainPath::bypass, MainPath::arc}) {
        for (const bool start : {false, true}) {
            const bool main = path != MainPath::open;
            SwitchPositions positions{path, 1.0, true, start};
            expect_connection(at(positions), main ? StatorConnection::both_on_line
                                                  : StatorConnection::auxiliary_on_line);
            positions.line_connected = false;
            expect_connection(at(positions),
                              main ? StatorConnection::loop : StatorConnection::open);
        }
    }
}

TEST(StartCircuit, WithoutARunCapacitorTheAuxiliaryIsOpenUntilTheStartCapacitorIsIn) {
    auto motor = support::lossy_motor();
    motor.run_capacitor_uF = 0.0;
    const StartCircuit circuit(motor, limiter(), series_H);
    SwitchPositions positions{MainPath::bypass, 0.0, true, false};
    expect_connection(circuit.coefficients(positions), StatorConnection::main_on_line);
    EXPECT_EQ(circuit.coefficients(positions).elastance_per_F, 0.0);
    EXPECT_EQ(circuit.coefficients(positions).capacitor_resistance_ohm, 0.0);
    positions.line_connected = false;
    expect_connection(circuit.coefficients(positions), StatorConnection::open);
    positions.start_capacitor_in = true;
    expect_connection(circuit.coefficients(positions), StatorConnection::loop);
    positions.line_connected = true;
    const auto c = circuit.coefficients(positions);
    expect_connection(c, StatorConnection::both_on_line);
    EXPECT_NEAR(c.elastance_per_F, 1.0 / 130e-6, 1e-6);
    EXPECT_NEAR(c.capacitor_resistance_ohm, 0.15, 1e-15);
    EXPECT_EQ(c.start_capacitor_share, 1.0);
    positions.main_path = MainPath::open;
    expect_connection(circuit.coefficients(positions), StatorConnection::auxiliary_on_line);
    positions.start_capacitor_in = false;
    expect_connection(circuit.coefficients(positions), StatorConnection::open);
}

TEST(StartCircuit, NoStartCapacitorFittedLeavesTheRunCapacitorAlone) {
    auto power = limiter();
    power.start_capacitor_uF = 0.0;
    const StartCircuit circuit(support::lossy_motor(), power, series_H);
    EXPECT_EQ(circuit.start_capacitance_F(), 0.0);
    EXPECT_EQ(circuit.meeting_capacitance_F(), 0.0);
    SwitchPositions positions;
    EXPECT_NEAR(circuit.coefficients(positions).elastance_per_F, 1.0 / 25e-6, 1e-6);
    EXPECT_EQ(circuit.coefficients(positions).start_capacitor_share, 0.0);
}

TEST(StartCircuit, NoCapacitorAtAllIsNotADivisionByZero) {
    auto motor = support::lossy_motor();
    motor.run_capacitor_uF = 0.0;
    auto power = limiter();
    power.start_capacitor_uF = 0.0;
    const StartCircuit circuit(motor, power, series_H);
    EXPECT_EQ(circuit.meeting_capacitance_F(), 0.0);
    EXPECT_EQ(circuit.coefficients({}).elastance_per_F, 0.0);
}

TEST(StartCircuit, DropOfTheMainPathOpposesTheCurrent) {
    auto drop = [](MainPath path, double direction) { return at({path, direction, true, false}); };
    EXPECT_DOUBLE_EQ(drop(MainPath::thyristor, 1.0).main_drop_V, 0.85);
    EXPECT_DOUBLE_EQ(drop(MainPath::thyristor, -1.0).main_drop_V, -0.85);
    EXPECT_DOUBLE_EQ(drop(MainPath::thyristor, 1.0).main_drop_ohm, 0.008);
    EXPECT_DOUBLE_EQ(drop(MainPath::bypass, 0.0).main_drop_V, 0.0);
    EXPECT_DOUBLE_EQ(drop(MainPath::bypass, 0.0).main_drop_ohm, 0.002);
    EXPECT_GT(drop(MainPath::arc, 1.0).main_drop_V, 10.0);
    EXPECT_EQ(drop(MainPath::arc, -1.0).main_drop_V, -drop(MainPath::arc, 1.0).main_drop_V);
    EXPECT_EQ(drop(MainPath::open, 0.0).main_drop_V, 0.0);
    EXPECT_EQ(drop(MainPath::open, 0.0).main_drop_ohm, 0.0);
}

TEST(StartCircuit, IronLossIsAConductanceThatHangsOnTheLine) {
    SwitchPositions positions;
    EXPECT_EQ(at(positions).iron_conductance_S, 0.0);
    positions.line_connected = true;
    EXPECT_NEAR(230.0 * 230.0 * at(positions).iron_conductance_S, 55.0, 1e-12);
}

TEST(StartCircuit, FiringNeedsMoreVoltageThanConductionKeeps) {
    const StartCircuit circuit(support::lossy_motor(), limiter(), series_H);
    EXPECT_GT(circuit.firing_threshold_V(), 0.85);
    EXPECT_LT(circuit.firing_threshold_V(), 5.0);
    EXPECT_DOUBLE_EQ(circuit.latching_current_A(), 0.080);
    EXPECT_NEAR(circuit.start_capacitor_discharge_s(), 15000.0 * 130e-6, 1e-12);
    EXPECT_NEAR(circuit.meeting_capacitance_F(), 25e-6 * 130e-6 / 155e-6, 1e-18);
}

}  // namespace
