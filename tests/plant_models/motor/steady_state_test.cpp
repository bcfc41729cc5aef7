// The revolving-field solution against a second derivation: the four winding equations of
// motor_equations.hpp as phasors, with the supply, solved by elimination. The two share no formula.
#include "plant_models/motor/steady_state.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "support/machines.hpp"

namespace {

using plant_models::AuxiliaryConnection;
using plant_models::CapacitorBranch;
using plant_models::MotorParameters;
using plant_models::SinusoidalSupply;
using plant_models::steady_state;
using plant_models::SteadyState;
using Phasor = std::complex<double>;

constexpr double pi = 3.14159265358979323846;
constexpr Phasor j{0.0, 1.0};

struct Case {
    std::string name;
    MotorParameters motor;
    SinusoidalSupply supply;
    AuxiliaryConnection auxiliary;
};

std::vector<Case> cases() {
    const CapacitorBranch run{40.0, 0.0};
    const CapacitorBranch start{130.0, 0.15};
    const MotorParameters american = support::two_pole_motor();
    const MotorParameters european = support::lossy_motor();
    return {
        {"run capacitor, stiff supply", american, {230.0, 60.0, 0.0, 0.0}, {run, {}}},
        {"run capacitor, wiring", american, {230.0, 60.0, 0.08, 0.15}, {run, {}}},
        {"both capacitors, wiring", american, {230.0, 60.0, 0.08, 0.15}, {run, start}},
        {"start capacitor alone", american, {120.0, 60.0, 0.0, 0.0}, {{}, start}},
        {"auxiliary open", american, {230.0, 60.0, 0.08, 0.15}, {}},
        {"iron loss, weak supply", european, {230.0, 50.0, 1.3, 2.0}, run_connection(european)},
        {"other frequency", european, {250.0, 60.0, 0.4, 0.7}, run_connection(european)},
        {"open, iron loss", european, {230.0, 50.0, 1.3, 2.0}, {}},
    };
}

const std::vector<double> slips = {-0.6, -0.05, 0.0, 0.02, 0.05, 0.11, 0.3,
                                   0.5,  0.77,  1.0, 1.2,  1.6,  2.0,  2.4};

constexpr std::size_t unknowns = 5;  // main, aux, rotor main, rotor aux current, terminal voltage
using Matrix = std::array<std::array<Phasor, unknowns + 1>, unknowns>;

std::array<Phasor, unknowns> eliminated(Matrix rows) {
    for (std::size_t column = 0; column < unknowns; ++column) {
        std::size_t pivot = column;
        for (std::size_t row = column; row < unknowns; ++row) {
            if (std::abs(rows[row][column]) > std::abs(rows[pivot][column])) {
                pivot = row;
            }
        }
        std::swap(rows[column], rows[pivot]);
        for (std::size_t row = 0; row < unknowns; ++row) {
            const Phasor factor =
                row == column ? Phasor(0.0) : rows[row][column] / rows[column][column];
            for (std::size_t k = 0; k <= unknowns; ++k) {
                rows[row][k] -= factor * rows[column][k];
            }
        }
    }
    std::array<Phasor, unknowns> solution;
    for (std::size_t row = 0; row < unknowns; ++row) {
        solution[row] = rows[row][unknowns] / rows[row][row];
    }
    return solution;
}

/// Inductances, d/dt -> j omega, speed voltages of the rotor at omega_e.
std::array<Phasor, unknowns> by_elimination(const Case& c, double slip) {
    const MotorParameters& m = c.motor;
    const double rated = 2.0 * pi * m.rated_frequency_Hz;
    const double omega = 2.0 * pi * c.supply.frequency_Hz;
    const double omega_e = (1.0 - slip) * omega;
    const double n = m.turns_ratio;
    const double L_m = m.magnetizing_reactance_ohm / rated;
    const double L_lm = m.main_leakage_reactance_ohm / rated;
    const double L_la = m.aux_leakage_reactance_ohm / rated;
    const double L_r = m.rotor_leakage_reactance_ohm / rated + L_m;
    Phasor admittance = 0.0;
    for (const auto& branch : {c.auxiliary.run, c.auxiliary.start}) {
        if (branch) {
            admittance +=
                1.0 / (branch->esr_ohm + 1.0 / (j * omega * branch->capacitance_uF * 1e-6));
        }
    }
    const double iron = m.iron_loss_W / (m.rated_voltage_V * m.rated_voltage_V);
    const Phasor series = c.supply.resistance_ohm + j * omega * c.supply.inductance_mH * 1e-3;
    Matrix rows{};
    rows[0] = {
        m.main_resistance_ohm + j * omega * (L_lm + L_m), 0.0, j * omega * L_m, 0.0, -1.0, 0.0};
    if (c.auxiliary.open()) {
        rows[1] = {0.0, 1.0, 0.0, 0.0, 0.0, 0.0};
    } else {
        rows[1] = {0.0,  m.aux_resistance_ohm + j * omega * (L_la + n * n * L_m) + 1.0 / admittance,
                   0.0,  j * omega * n * L_m,
                   -1.0, 0.0};
    }
    rows[2] = {j * omega * L_m,
               -omega_e * n * L_m,
               m.rotor_resistance_ohm + j * omega * L_r,
               -omega_e * L_r,
               0.0,
               0.0};
    rows[3] = {omega_e * L_m, j * omega * n * L_m,
               omega_e * L_r, m.rotor_resistance_ohm + j * omega * L_r,
               0.0,           0.0};
    rows[4] = {series, series, 0.0, 0.0, 1.0 + series * iron, c.supply.voltage_V};
    return eliminated(rows);
}

void expect_same(Phasor actual, Phasor expected, double size, const char* what) {
    EXPECT_LT(std::abs(actual - expected), 1e-10 * size)
        << what << ": " << actual << " against " << expected;
}

TEST(SteadyState, RevolvingFieldsAndEliminationOfTheWindingsAgreeAtEverySlip) {
    for (const Case& c : cases()) {
        for (const double slip : slips) {
            SCOPED_TRACE(c.name + ", slip " + std::to_string(slip));
            const SteadyState point = steady_state(c.motor, c.supply, c.auxiliary, slip);
            const auto [main, aux, rotor_main, rotor_aux, voltage] = by_elimination(c, slip);
            const double size = std::abs(main);
            expect_same(point.main_current_A, main, size, "main current");
            expect_same(point.aux_current_A, aux, size, "auxiliary current");
            expect_same(point.rotor_main_current_A, rotor_main, size, "rotor current, main axis");
            expect_same(point.rotor_aux_current_A, rotor_aux, size, "rotor current, other axis");
            expect_same(point.terminal_voltage_V, voltage, 230.0, "terminal voltage");
            const double rated = 2.0 * pi * c.motor.rated_frequency_Hz;
            const double L_m = c.motor.magnetizing_reactance_ohm / rated;
            const double torque =
                c.motor.poles / 2.0 * L_m *
                (main * std::conj(rotor_aux) - c.motor.turns_ratio * aux * std::conj(rotor_main))
                    .real();
            EXPECT_NEAR(point.torque_Nm, torque, 1e-10 * size);
            const double omega = 2.0 * pi * c.supply.frequency_Hz;
            const double L_a = c.motor.aux_leakage_reactance_ohm / rated +
                               c.motor.turns_ratio * c.motor.turns_ratio * L_m;
            const Phasor s_voltage =
                c.motor.aux_resistance_ohm * aux +
                j * omega * (L_a * aux + c.motor.turns_ratio * L_m * rotor_aux);
            expect_same(point.s_voltage_V, s_voltage, 230.0, "S voltage");
            expect_same(point.capacitor_voltage_V, voltage - s_voltage, 230.0, "capacitor voltage");
        }
    }
}

TEST(SteadyState, InputPowerIsEveryLossPlusTheShaftPower) {
    for (const Case& c : cases()) {
        for (const double slip : slips) {
            SCOPED_TRACE(c.name + ", slip " + std::to_string(slip));
            const SteadyState p = steady_state(c.motor, c.supply, c.auxiliary, slip);
            const double used = p.main_copper_W + p.aux_copper_W + p.rotor_copper_W +
                                p.capacitor_loss_W + p.iron_loss_W + p.mechanical_loss_W +
                                p.shaft_power_W;
            EXPECT_NEAR(p.input_power_W, used, 1e-9 * std::abs(p.main_current_A) * 230.0);
            const double from_source = (c.supply.voltage_V * std::conj(p.line_current_A)).real();
            EXPECT_NEAR(from_source, p.input_power_W + p.supply_loss_W,
                        1e-9 * std::abs(p.line_current_A) * 230.0);
        }
    }
}

TEST(SteadyState, TorqueIsTheMeanOfThePulsatingTorqueOverOnePeriod) {
    const MotorParameters motor = support::two_pole_motor();
    const SteadyState point =
        steady_state(motor, {230.0, 60.0, 0.08, 0.15}, run_connection(motor), 0.35);
    const double L_m = motor.magnetizing_reactance_ohm / (2.0 * pi * 60.0);
    const auto instant = [](Phasor phasor, double angle) {
        return std::sqrt(2.0) * (phasor * std::exp(j * angle)).imag();
    };
    constexpr int samples = 16;
    double sum = 0.0;
    double largest = -1e9;
    for (int k = 0; k < samples; ++k) {
        const double angle = 2.0 * pi * k / samples;
        const double torque = L_m * (instant(point.main_current_A, angle) *
                                         instant(point.rotor_aux_current_A, angle) -
                                     motor.turns_ratio * instant(point.aux_current_A, angle) *
                                         instant(point.rotor_main_current_A, angle));
        sum += torque;
        largest = std::max(largest, torque);
    }
    EXPECT_NEAR(sum / samples, point.torque_Nm, 1e-10 * point.torque_Nm);
    EXPECT_GT(largest, 1.5 * point.torque_Nm);
}

// With equal windings and the capacitor -(1 + j) Z the auxiliary takes exactly j times the main
// current, the backward field vanishes, and what is left is the textbook two-phase machine.
TEST(SteadyState, BalancedMachineHasTheTorqueOfTheTwoPhaseEquivalentCircuit) {
    MotorParameters motor = support::two_pole_motor();
    motor.turns_ratio = 1.0;
    motor.aux_resistance_ohm = motor.main_resistance_ohm;
    motor.aux_leakage_reactance_ohm = motor.main_leakage_reactance_ohm;
    const double omega = 2.0 * pi * 60.0;
    for (const double slip : {0.004, 1.0, 1.5}) {
        SCOPED_TRACE(slip);
        const Phasor rotor(motor.rotor_resistance_ohm / slip, motor.rotor_leakage_reactance_ohm);
        const Phasor magnetizing = j * motor.magnetizing_reactance_ohm;
        const Phasor phase = Phasor(motor.main_resistance_ohm, motor.main_leakage_reactance_ohm) +
                             rotor * magnetizing / (rotor + magnetizing);
        const Phasor capacitor = -(1.0 + j) * phase;
        ASSERT_GT(capacitor.real(), 0.0);
        const CapacitorBranch branch{-1e6 / (omega * capacitor.imag()), capacitor.real()};
        const SteadyState point = steady_state(motor, {230.0, 60.0, 0.0, 0.0}, {branch, {}}, slip);
        const Phasor current = 230.0 / phase;
        const Phasor rotor_current = current * magnetizing / (rotor + magnetizing);
        const double torque =
            2.0 * std::norm(rotor_current) * motor.rotor_resistance_ohm / slip / omega;
        EXPECT_NEAR(point.torque_Nm, torque, 1e-10 * torque);
        EXPECT_LT(std::abs(point.aux_current_A - j * current), 1e-10 * std::abs(current));
        // Turning backwards (slip above 1) it is braked: the torque keeps its direction.
        EXPECT_GT(point.torque_Nm, 0.0);
        if (slip > 1.0) {
            EXPECT_LT(point.speed_rad_per_s, 0.0);
            EXPECT_LT(point.shaft_power_W, 0.0);
            EXPECT_FALSE(point.efficiency.has_value());
        }
    }
}

TEST(SteadyState, ReversingTheAuxiliaryMirrorsTheTorqueCurve) {
    const MotorParameters motor = support::two_pole_motor();
    MotorParameters reversed = motor;
    reversed.turns_ratio = -motor.turns_ratio;
    const SinusoidalSupply supply{230.0, 60.0, 0.08, 0.15};
    for (const double slip : slips) {
        SCOPED_TRACE(slip);
        const SteadyState ahead = steady_state(motor, supply, run_connection(motor), slip);
        const SteadyState back = steady_state(reversed, supply, run_connection(motor), 2.0 - slip);
        EXPECT_NEAR(ahead.torque_Nm, -back.torque_Nm, 1e-9);
        EXPECT_LT(std::abs(ahead.line_current_A - back.line_current_A), 1e-9);
        EXPECT_NEAR(ahead.speed_rad_per_s, -back.speed_rad_per_s, 1e-9);
    }
}

TEST(SteadyState, MainWindingAloneMakesNoTorqueAtRestAndDrivesEitherWay) {
    const MotorParameters motor = support::two_pole_motor();
    const SinusoidalSupply supply{230.0, 60.0, 0.0, 0.0};
    EXPECT_NEAR(locked_rotor(motor, supply, {}).torque_Nm, 0.0, 1e-10);
    EXPECT_GT(steady_state(motor, supply, {}, 0.1).torque_Nm, 1.0);
    EXPECT_LT(steady_state(motor, supply, {}, 1.9).torque_Nm, -1.0);
    EXPECT_GT(steady_state(motor, supply, {}, 1.9).shaft_power_W, 100.0);
}

TEST(SteadyState, TheAuxiliaryStartsTheRotorForwards) {
    const MotorParameters motor = support::two_pole_motor();
    const SteadyState point = locked_rotor(motor, {230.0, 60.0, 0.0, 0.0}, run_connection(motor));
    EXPECT_GT(point.torque_Nm, 0.5);
    EXPECT_GT(std::arg(point.aux_current_A), std::arg(point.main_current_A));
    EXPECT_EQ(point.speed_rad_per_s, 0.0);
    EXPECT_EQ(point.shaft_power_W, 0.0);
    EXPECT_EQ(point.efficiency.value(), 0.0);
}

TEST(SteadyState, HalfTheVoltageGivesAQuarterOfTheTorqueAndHalfTheCurrent) {
    const MotorParameters motor = support::lossy_motor();
    const SteadyState full =
        steady_state(motor, {230.0, 50.0, 0.5, 1.0}, run_connection(motor), 0.4);
    const SteadyState half =
        steady_state(motor, {115.0, 50.0, 0.5, 1.0}, run_connection(motor), 0.4);
    EXPECT_NEAR(half.torque_Nm, 0.25 * full.torque_Nm, 1e-12 * full.torque_Nm);
    EXPECT_NEAR(std::abs(half.line_current_A), 0.5 * std::abs(full.line_current_A), 1e-12);
}

TEST(SteadyState, IronLossIsAnInPhaseCurrentAtTheTerminals) {
    MotorParameters motor = support::lossy_motor();
    const SinusoidalSupply supply{200.0, 50.0, 0.0, 0.0};
    const SteadyState with = steady_state(motor, supply, run_connection(motor), 0.06);
    motor.iron_loss_W = 0.0;
    const SteadyState without = steady_state(motor, supply, run_connection(motor), 0.06);
    const double loss = 55.0 * (200.0 / 230.0) * (200.0 / 230.0);
    EXPECT_NEAR(with.iron_loss_W, loss, 1e-10);
    EXPECT_NEAR(with.input_power_W - without.input_power_W, loss, 1e-9);
    EXPECT_LT(std::abs(with.line_current_A - without.line_current_A - loss / 200.0), 1e-10);
    EXPECT_NEAR(with.torque_Nm, without.torque_Nm, 1e-12);
}

TEST(SteadyState, FrictionGrowsWithTheSpeedAndWindageWithItsCube) {
    const MotorParameters motor = support::lossy_motor();
    const SinusoidalSupply supply{230.0, 50.0, 0.0, 0.0};
    const auto loss = [&](double slip) {
        return steady_state(motor, supply, run_connection(motor), slip).mechanical_loss_W;
    };
    EXPECT_NEAR(loss(0.0), 12.0 + 9.0, 1e-12);
    EXPECT_NEAR(loss(0.5), 12.0 / 2.0 + 9.0 / 8.0, 1e-12);
    EXPECT_NEAR(loss(1.5), loss(0.5), 1e-12);
    EXPECT_EQ(loss(1.0), 0.0);
}

TEST(SteadyState, CurveRunsFromRestToSynchronousSpeed) {
    const MotorParameters motor = support::lossy_motor();
    const auto curve =
        torque_speed_curve(motor, {230.0, 50.0, 0.0, 0.0}, run_connection(motor), 31);
    ASSERT_EQ(curve.size(), 31U);
    EXPECT_EQ(curve.front().speed_rad_per_s, 0.0);
    EXPECT_NEAR(curve.back().speed_rad_per_s, 2.0 * pi * 25.0, 1e-10);
    EXPECT_NEAR(curve[15].slip, 0.5, 1e-12);
    // Without slip the rotor's forward field is at rest: the backward field brakes.
    EXPECT_LT(curve.back().torque_Nm, 0.0);
}

TEST(SteadyState, ImpossibleInputIsRefused) {
    const MotorParameters motor = support::lossy_motor();
    const auto run = run_connection(motor);
    EXPECT_THROW(steady_state(motor, {0.0, 50.0, 0.0, 0.0}, run, 0.1), std::invalid_argument);
    EXPECT_THROW(steady_state(motor, {230.0, 0.0, 0.0, 0.0}, run, 0.1), std::invalid_argument);
    EXPECT_THROW(steady_state(motor, {230.0, 50.0, 0.0, 0.0}, run, std::nan("")),
                 std::invalid_argument);
    EXPECT_THROW(torque_speed_curve(motor, {230.0, 50.0, 0.0, 0.0}, run, 1), std::invalid_argument);
}

}  // namespace
