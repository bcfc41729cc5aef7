// The equations of the plant in every position of its switches, at random states.
//
// Energy: source - losses - load - d(stored)/dt = 0 along the derivative. The audit is quadratic in
// the state, so a central difference is exact but for rounding. Voltage: Kirchhoff's law around
// every closed loop and the cage's two equations, written out here a second time.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "plant_models/loads/polynomial.hpp"
#include "plant_models/supplies/grid.hpp"
#include "plant_models/supplies/inverter.hpp"
#include "support/live_plant.hpp"
#include "support/machines.hpp"
#include "support/plant_positions.hpp"
#include "support/swinging_load.hpp"

namespace {

using plant_models::Grid;
using plant_models::Inverter;
using plant_models::LimiterParameters;
using plant_models::MainPath;
using plant_models::MotorParameters;
using plant_models::PolynomialLoad;
using support::all_positions;
using support::describe;
using support::LivePlant;
using support::PlantPosition;
using support::SwingingLoad;

constexpr int states_per_position = 12;

struct Machine {
    std::string name;
    MotorParameters motor;
};

std::vector<Machine> machines() {
    MotorParameters lossy = support::lossy_motor();
    MotorParameters no_run_capacitor = lossy;
    no_run_capacitor.run_capacitor_uF = 0.0;
    return {{"two poles", support::two_pole_motor()},
            {"every loss", lossy},
            {"no run capacitor", no_run_capacitor}};
}

/// Calls `check(live, position, machine)` at random states of every machine and position.
template <class Supply, class Load, class Check>
void at_random_states(const Supply& supply, const Load& load, std::uint64_t seed, Check check) {
    support::RandomNumbers random(seed);
    for (const Machine& machine : machines()) {
        for (const PlantPosition& position : all_positions()) {
            SCOPED_TRACE(machine.name + ", " + describe(position));
            LivePlant<Supply, Load> live(
                machine.motor, support::table_defaults<LimiterParameters>(), supply, load);
            support::put(live, position);
            const auto base = live;
            for (int k = 0; k < states_per_position; ++k) {
                live = base;
                live.time_s = random.between(0.0, 0.5);
                live.x = support::random_state(live, position, machine.motor.run_capacitor_uF > 0.0,
                                               random);
                live.refresh();
                check(live, position, machine.motor);
                if (testing::Test::HasFailure()) {
                    return;
                }
            }
        }
    }
}

template <class Live>
void expect_energy_balance(const Live& live) {
    const double h = 1e-5;
    auto ahead = live;
    auto behind = live;
    for (std::size_t k = 0; k < live.x.size(); ++k) {
        ahead.x[k] += h * live.rate[k];
        behind.x[k] -= h * live.rate[k];
    }
    ahead.time_s += h;
    behind.time_s -= h;
    const double missing_W = (ahead.unexplained_J() - behind.unexplained_J()) / (2.0 * h);
    EXPECT_NEAR(missing_W, 0.0, 2e-4);  // of tens of kilowatts that flow at these states
}

template <class Live>
void expect_every_loss_to_be_one(const Live& live, const PlantPosition& position) {
    using P = typename Live::Plant;
    for (const auto loss : {P::copper_energy, P::wiring_energy, P::iron_energy, P::switch_energy,
                            P::friction_energy}) {
        EXPECT_GE(live.rate[loss], 0.0) << "energy state " << loss;
    }
    EXPECT_GT(live.rate[P::copper_energy], 0.0);
    const bool drop = position.main_path != MainPath::open && live.x[P::main_current] != 0.0;
    EXPECT_EQ(live.rate[P::switch_energy] > 0.0, drop);
}

template <class Live>
void expect_kirchhoff(const Live& live, const PlantPosition& position,
                      const MotorParameters& motor) {
    using P = typename Live::Plant;
    const plant_models::MotorEquations<double> m(motor);
    const plant_models::WindingCurrents<double> i = {
        live.x[P::main_current], live.x[P::aux_current], live.x[P::rotor_main_current],
        live.x[P::rotor_aux_current]};
    const plant_models::WindingCurrents<double> rate = {
        live.rate[P::main_current], live.rate[P::aux_current], live.rate[P::rotor_main_current],
        live.rate[P::rotor_aux_current]};
    const auto limiter = support::table_defaults<LimiterParameters>();
    const auto out = live.outputs();
    const double tolerance = 1e-9 * 1e4;

    double drop = 0.0;
    switch (position.main_path) {
        case MainPath::thyristor:
            drop = 0.85 * position.main_direction + 0.008 * i.main_A;
            break;
        case MainPath::bypass:
            drop = 0.002 * i.main_A;
            break;
        case MainPath::arc:
            drop = 20.0 * position.main_direction;
            break;
        case MainPath::open:
            break;
    }
    const bool run = motor.run_capacitor_uF > 0.0;
    const double run_F = 1e-6 * motor.run_capacitor_uF;
    const double start_F = position.start_capacitor_in ? 1e-6 * limiter.start_capacitor_uF : 0.0;
    double capacitor_ohm = 0.0;
    if (run_F + start_F > 0.0) {
        const double share = start_F / (run_F + start_F);
        capacitor_ohm = motor.run_capacitor_esr_ohm * (1.0 - share) * (1.0 - share) +
                        limiter.start_capacitor_esr_ohm * share * share;
        EXPECT_NEAR(live.rate[P::capacitor_voltage], i.aux_A / (run_F + start_F), 1e-6);
        EXPECT_NEAR(out.start_capacitor_current_A, share * i.aux_A, 1e-9);
    }
    const double through_main = drop + m.main_voltage_V(i, rate, m.rated_resistances());
    const double through_aux = live.x[P::capacitor_voltage] + capacitor_ohm * i.aux_A +
                               m.aux_voltage_V(i, rate, m.rated_resistances());
    EXPECT_NEAR(out.start_terminal_voltage_V, m.aux_voltage_V(i, rate, m.rated_resistances()),
                tolerance);

    const auto free = support::free_currents(position, run);
    if (free.opposite) {
        EXPECT_NEAR(through_main, through_aux, tolerance);
        EXPECT_EQ(rate.main_A, -rate.aux_A);
    } else {
        if (free.main) {
            EXPECT_NEAR(out.line_voltage_V, through_main, tolerance);
        } else {
            EXPECT_EQ(rate.main_A, 0.0);
        }
        if (free.auxiliary) {
            EXPECT_NEAR(out.line_voltage_V, through_aux, tolerance);
        } else {
            EXPECT_EQ(rate.aux_A, 0.0);
        }
    }
    if (position.main_path != MainPath::open) {
        EXPECT_EQ(out.blocking_voltage_V, 0.0);
    }
    if (position.main_path == MainPath::open && (position.line_connected || run)) {
        const double l1 = position.line_connected ? out.line_voltage_V : through_aux;
        EXPECT_NEAR(out.blocking_voltage_V, l1 - m.main_voltage_V(i, rate, m.rated_resistances()),
                    tolerance);
    }

    const double electrical = motor.poles / 2.0 * live.x[P::speed];
    EXPECT_NEAR(motor.rotor_resistance_ohm * i.rotor_main_A + m.rotor_main_flux(rate) -
                    electrical * m.rotor_aux_flux(i),
                0.0, tolerance);
    EXPECT_NEAR(motor.rotor_resistance_ohm * i.rotor_aux_A + m.rotor_aux_flux(rate) +
                    electrical * m.rotor_main_flux(i),
                0.0, tolerance);
}

TEST(PlantEnergyBalance, ClosesOnAWeakGridInEveryPosition) {
    at_random_states(Grid(support::weak_grid()), PolynomialLoad(support::fan()), 10,
                     [](const auto& live, const PlantPosition& position, const auto&) {
                         expect_energy_balance(live);
                         expect_every_loss_to_be_one(live, position);
                     });
}

TEST(PlantEnergyBalance, ClosesOnAnIdealGridInEveryPosition) {
    at_random_states(
        Grid(support::ideal_grid(230.0, 60.0)), PolynomialLoad(support::fan()), 11,
        [](const auto& live, const PlantPosition&, const auto&) { expect_energy_balance(live); });
}

TEST(PlantEnergyBalance, ClosesOnAnInverterInEveryPosition) {
    at_random_states(Inverter(support::small_inverter()), PolynomialLoad(support::fan()), 12,
                     [](const auto& live, const PlantPosition& position, const auto&) {
                         expect_energy_balance(live);
                         expect_every_loss_to_be_one(live, position);
                     });
}

TEST(PlantEnergyBalance, ClosesOnATrippedInverterInEveryPosition) {
    Inverter inverter(support::small_inverter());
    auto x = inverter.initial_state();
    inverter.on_guard(Inverter::timer_full, x.data());
    at_random_states(
        inverter, PolynomialLoad(support::fan()), 13,
        [](const auto& live, const PlantPosition&, const auto&) { expect_energy_balance(live); });
}

// A load that drives has torque whatever way the rotor turns, and states of its own.
TEST(PlantEnergyBalance, ClosesWithALoadThatDrivesInEveryPosition) {
    at_random_states(Grid(support::weak_grid()), SwingingLoad({4.0, 30.0, 0.5, 1.0}), 14,
                     [](const auto& live, const PlantPosition& position, const auto&) {
                         expect_energy_balance(live);
                         expect_every_loss_to_be_one(live, position);
                     });
}

TEST(PlantVoltages, ObeyKirchhoffOnAWeakGridInEveryPosition) {
    at_random_states(Grid(support::weak_grid()), PolynomialLoad(support::fan()), 15,
                     [](const auto& live, const PlantPosition& position, const auto& motor) {
                         expect_kirchhoff(live, position, motor);
                     });
}

TEST(PlantVoltages, ObeyKirchhoffOnAnInverterInEveryPosition) {
    at_random_states(Inverter(support::small_inverter()), PolynomialLoad(support::fan()), 16,
                     [](const auto& live, const PlantPosition& position, const auto& motor) {
                         expect_kirchhoff(live, position, motor);
                     });
}

TEST(PlantVoltages, LineVoltageIsTheEmfMinusTheDropOfTheSupply) {
    at_random_states(
        Grid(support::weak_grid()), PolynomialLoad(support::fan()), 17,
        [](const auto& live, const PlantPosition& position, const MotorParameters& motor) {
            using P = typename std::decay_t<decltype(live)>::Plant;
            const auto out = live.outputs();
            const double emf =
                230.0 * std::sqrt(2.0) *
                std::sin(2.0 * plant_models::pi * (50.0 * live.time_s + 35.0 / 360.0));
            const double line_A = live.x[P::main_current] + live.x[P::aux_current];
            const double line_rate = live.rate[P::main_current] + live.rate[P::aux_current];
            EXPECT_NEAR(out.line_voltage_V, emf - 1.3 * line_A - 2e-3 * line_rate, 1e-6);
            EXPECT_NEAR(out.line_current_rate_A_per_s, line_rate, 1e-9);
            // The iron loss draws on the line only while the motor is on it.
            const double iron_S = motor.iron_loss_W / (230.0 * 230.0);
            const double iron_A = position.line_connected ? iron_S * out.line_voltage_V : 0.0;
            EXPECT_NEAR(out.line_current_A, line_A + iron_A, 1e-9);
        });
}

TEST(PlantMotion, InertiaTimesAccelerationIsTheNetTorqueAndARestingRotorIsHeld) {
    at_random_states(
        Grid(support::weak_grid()), PolynomialLoad(support::fan()), 18,
        [](const auto& live, const PlantPosition& position, const MotorParameters& motor) {
            using P = typename std::decay_t<decltype(live)>::Plant;
            const auto out = live.outputs();
            const double speed = live.x[P::speed];
            const double synchronous =
                4.0 * plant_models::pi * motor.rated_frequency_Hz / motor.poles;
            const double ratio = speed / synchronous;
            const double friction_Nm =
                (motor.friction_loss_W + motor.windage_loss_W * ratio * ratio) / synchronous;
            const double fan_ratio = speed / plant_models::rpm_to_rad_per_s(1500.0);
            const double load_Nm = 0.6 + 2.4 * fan_ratio * fan_ratio;
            if (position.rotation == 0.0) {
                EXPECT_EQ(live.rate[P::speed], 0.0);
                EXPECT_TRUE(out.rotor_stuck);
                EXPECT_EQ(live.rate[P::load_energy], 0.0);
                EXPECT_EQ(live.rate[P::friction_energy], 0.0);
            } else {
                const double against = position.rotation * (load_Nm + friction_Nm);
                EXPECT_NEAR(motor.inertia_kg_m2 * live.rate[P::speed], out.torque_Nm - against,
                            1e-9);
                EXPECT_NEAR(out.load_torque_Nm, against, 1e-9);
                EXPECT_EQ(out.acceleration_rad_per_s2, live.rate[P::speed]);
                // Friction takes energy whichever way the rotor turns.
                EXPECT_NEAR(live.rate[P::load_energy], load_Nm * std::abs(speed), 1e-7);
                EXPECT_NEAR(live.rate[P::friction_energy], friction_Nm * std::abs(speed), 1e-7);
            }
        });
}

TEST(EnergyAudit, ClosureIsTheShareThatIsMissing) {
    plant_models::EnergyAudit audit;
    EXPECT_EQ(audit.closure(), 0.0);
    audit.source_J = 200.0;
    audit.copper_J = 30.0;
    audit.wiring_J = 5.0;
    audit.switch_J = 4.0;
    audit.iron_J = 3.0;
    audit.friction_J = 8.0;
    audit.load_J = 100.0;
    audit.stored_J = 50.0;
    EXPECT_DOUBLE_EQ(audit.loss_J(), 50.0);
    EXPECT_DOUBLE_EQ(audit.closure(), 0.0);
    audit.load_J = 98.0;
    EXPECT_DOUBLE_EQ(audit.closure(), 0.01);
    audit.load_J = 102.0;
    EXPECT_DOUBLE_EQ(audit.closure(), 0.01);
    // A run-down without a source: what was stored is the measure.
    audit = {};
    audit.stored_J = -40.0;
    audit.load_J = 39.0;
    EXPECT_DOUBLE_EQ(audit.closure(), 0.025);
}

}  // namespace
