#include "plant_models/unit/heat_network.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/fitting_loop.hpp"
#include "support/machines.hpp"
#include "support/random_numbers.hpp"

namespace {

using plant_models::Conditions;
using plant_models::HeatNetwork;
using plant_models::HeatParameters;
using plant_models::UnitSignals;
using support::FittingLoop;

HeatParameters default_heat() {
    return support::table_defaults<HeatParameters>();
}

HeatNetwork network(const Conditions& conditions = {}) {
    return HeatNetwork(default_heat(), support::lossy_motor(), conditions);
}

UnitSignals losses_of_a_run() {
    UnitSignals signals;
    signals.main_copper_W = 90.0;
    signals.aux_copper_W = 40.0;
    signals.cage_W = 70.0;
    signals.iron_W = 55.0;
    signals.friction_W = 25.0;
    signals.speed_rad_per_s = 150.0;
    return signals;
}

// Every loss goes somewhere, at any temperatures: stored or given off, in the same instant.
TEST(HeatNetwork, StoresOrGivesOffEveryLoss) {
    support::RandomNumbers random(11);
    const HeatNetwork heat = network();
    for (int k = 0; k < 1000; ++k) {
        std::array<double, 4> x{};
        for (double& node : x) {
            node = random.between(-40.0, 200.0);
        }
        UnitSignals signals = losses_of_a_run();
        signals.main_copper_W = random.between(0.0, 5000.0);
        signals.aux_copper_W = random.between(0.0, 1000.0);
        signals.cage_W = random.between(0.0, 8000.0);
        signals.speed_rad_per_s = random.between(-380.0, 380.0);
        std::array<double, 4> rate{};
        heat.derivatives(x.data(), rate.data(), signals);
        // Stored energy is linear in the temperatures, so its rate follows from one step of 1 s.
        std::array<double, 4> later{};
        for (std::size_t node = 0; node < 4; ++node) {
            later[node] = x[node] + rate[node];
        }
        const double stored_W = heat.stored_energy_J(later.data()) - heat.stored_energy_J(x.data());
        const double made_W = signals.main_copper_W + signals.aux_copper_W + signals.cage_W +
                              signals.iron_W + signals.friction_W;
        const double off_W = heat.given_off_W(x.data(), signals.speed_rad_per_s);
        EXPECT_NEAR(stored_W + off_W, made_W, 1e-8 * (1.0 + made_W));
    }
}

TEST(HeatNetwork, AnHourOfLossesIsStoredOrGivenOffToAMillionth) {
    Conditions conditions;
    conditions.rest_s = 1e6;
    FittingLoop<HeatNetwork> loop(network(conditions), 1.0);
    const UnitSignals signals = losses_of_a_run();
    loop.set_signals(signals);
    const double before_J = loop.fitting.stored_energy_J(loop.x.data());
    double off_J = 0.0;
    double last_W = loop.fitting.given_off_W(loop.x.data(), signals.speed_rad_per_s);
    loop.after_step = [&](double length_s) {
        const double now_W = loop.fitting.given_off_W(loop.x.data(), signals.speed_rad_per_s);
        off_J += 0.5 * length_s * (last_W + now_W);
        last_W = now_W;
    };
    loop.run_until(3600.0);
    const double made_J = 3600.0 * (90.0 + 40.0 + 70.0 + 55.0 + 25.0);
    const double stored_J = loop.fitting.stored_energy_J(loop.x.data()) - before_J;
    EXPECT_NEAR(stored_J + off_J, made_J, 1e-6 * made_J);
    EXPECT_GT(stored_J, 0.1 * made_J);
    EXPECT_GT(off_J, 0.1 * made_J);
}

// Conductances as the parameters define them: mass x specific heat / time constant.
TEST(HeatNetwork, SettlesWhereTheConductancesSay) {
    Conditions conditions;
    conditions.ambient_C = 35.0;
    HeatParameters heat = default_heat();
    heat.main_winding_mass_kg = 1.0;
    heat.aux_winding_mass_kg = 0.6;
    heat.rotor_mass_kg = 3.0;
    heat.shell_mass_kg = 12.0;
    const auto motor = support::lossy_motor();
    FittingLoop<HeatNetwork> loop(HeatNetwork(heat, motor, conditions), 5.0);
    UnitSignals signals = losses_of_a_run();
    signals.speed_rad_per_s = motor.synchronous_speed_rad_per_s(50.0);
    loop.set_signals(signals);
    loop.run_until(40000.0);
    const double whole_J_per_K = 1.6 * 385.0 + 3.0 * 526.0 + 12.0 * 500.0;
    const double shell_C = 35.0 + 280.0 / (whole_J_per_K / 600.0);
    EXPECT_NEAR(loop.x[HeatNetwork::shell], shell_C, 1e-6);
    EXPECT_NEAR(loop.x[HeatNetwork::main_winding], shell_C + 90.0 / (1.0 * 385.0 / 150.0), 1e-6);
    EXPECT_NEAR(loop.x[HeatNetwork::aux_winding], shell_C + 40.0 / (0.6 * 385.0 / 150.0), 1e-6);
    EXPECT_NEAR(loop.x[HeatNetwork::rotor], shell_C + 70.0 / (3.0 * 526.0 / 300.0), 1e-6);
}

// In the slowest mode every node decays as exp(-t / tau). Of the four equations follows
//   C_s + sum C_k / (1 - tau_k / tau) = tau G_s
// for that tau; here it is found by iteration from the masses that are put in.
TEST(HeatNetwork, AtRestCoolsAlongOneExponentialOfTheWholeUnit) {
    HeatParameters heat = default_heat();
    heat.main_winding_mass_kg = 1.0;
    heat.aux_winding_mass_kg = 0.6;
    heat.rotor_mass_kg = 3.0;
    heat.shell_mass_kg = 12.0;
    const double windings_J_per_K = 1.6 * 385.0;
    const double rotor_J_per_K = 3.0 * 526.0;
    const double conductance = (windings_J_per_K + rotor_J_per_K + 6000.0) / 2400.0;
    double tau_s = 2400.0;
    for (int k = 0; k < 50; ++k) {
        tau_s = (6000.0 + windings_J_per_K / (1.0 - 150.0 / tau_s) +
                 rotor_J_per_K / (1.0 - 300.0 / tau_s)) /
                conductance;
    }
    EXPECT_LT(tau_s, 1.05 * 2400.0);

    Conditions conditions;
    conditions.ambient_C = 20.0;
    conditions.rest_s = 0.0;
    FittingLoop<HeatNetwork> loop(HeatNetwork(heat, support::lossy_motor(), conditions), 2.0);
    loop.run_until(6000.0);
    const double before_K = loop.x[HeatNetwork::shell] - 20.0;
    loop.run_until(8000.0);
    EXPECT_NEAR(loop.x[HeatNetwork::shell] - 20.0, before_K * std::exp(-2000.0 / tau_s),
                1e-5 * before_K);
}

TEST(HeatNetwork, WindingAloneCoolsTowardsTheShellWithItsTimeConstant) {
    HeatParameters heat = default_heat();
    heat.main_winding_mass_kg = 0.5;
    heat.shell_mass_kg = 1000.0;  // stays where it is
    heat.shell_time_constant_s = 1e5;
    heat.running_shell_time_constant_s = 1e5;
    FittingLoop<HeatNetwork> loop(HeatNetwork(heat, support::lossy_motor(), {}), 0.5);
    loop.x = {160.0, 25.0, 25.0, 25.0};
    loop.run_until(150.0);
    EXPECT_NEAR(loop.x[HeatNetwork::main_winding] - 25.0, 135.0 * std::exp(-1.0), 0.05);
}

TEST(HeatNetwork, RefrigerantCoolsItWhicheverWayItTurns) {
    const HeatNetwork heat = network();
    const std::array<double, 4> x = {90.0, 90.0, 90.0, 70.0};
    const double synchronous = support::lossy_motor().synchronous_speed_rad_per_s(50.0);
    const double at_rest_W = heat.given_off_W(x.data(), 0.0);
    EXPECT_GT(at_rest_W, 0.0);
    EXPECT_NEAR(heat.given_off_W(x.data(), synchronous), 4.0 * at_rest_W, 1e-9 * at_rest_W);
    EXPECT_EQ(heat.given_off_W(x.data(), -synchronous), heat.given_off_W(x.data(), synchronous));
}

TEST(HeatNetwork, BeginsWarmAfterAShortRestAndAtAmbientAfterALongOne) {
    Conditions conditions;
    conditions.ambient_C = 30.0;
    conditions.rest_s = 0.0;
    auto x = network(conditions).initial_state();
    EXPECT_NEAR(x[HeatNetwork::shell], 65.0, 1e-12);
    EXPECT_NEAR(x[HeatNetwork::main_winding], 90.0, 1e-12);
    EXPECT_NEAR(x[HeatNetwork::rotor], 95.0, 1e-12);
    conditions.rest_s = 2400.0;
    x = network(conditions).initial_state();
    EXPECT_NEAR(x[HeatNetwork::shell], 30.0 + 35.0 * std::exp(-1.0), 1e-12);
    conditions.rest_s = 1e6;
    for (const double node_C : network(conditions).initial_state()) {
        EXPECT_NEAR(node_C, 30.0, 1e-12);
    }
}

TEST(HeatNetwork, CrankcaseHeaterKeepsTheOilWarmHoweverLongTheRest) {
    Conditions conditions;
    conditions.ambient_C = -20.0;
    conditions.rest_s = 1e6;
    conditions.oil_warming_K = 18.0;
    EXPECT_NEAR(HeatNetwork::oil_C(network(conditions).initial_state().data()), -2.0, 1e-12);
    conditions.rest_s = 0.0;
    EXPECT_NEAR(HeatNetwork::oil_C(network(conditions).initial_state().data()), 15.0, 1e-12);
}

// Independent ratios: from 20 C, copper's resistance vanishes at -234.5 C and aluminium's at
// -228.1 C by straight extrapolation (values of the trade, recalled; 1 / 0.00393 - 20 = 234.45).
TEST(HeatNetwork, ResistancesFollowCopperAndAluminium) {
    const HeatNetwork heat = network();
    const std::array<double, 4> x = {115.0, 60.0, 140.0, 40.0};
    const auto factors = heat.resistance_factors(x.data());
    EXPECT_NEAR(factors.main, (234.45 + 115.0) / (234.45 + 25.0), 1e-4);
    EXPECT_NEAR(factors.aux, (234.45 + 60.0) / (234.45 + 25.0), 1e-4);
    EXPECT_NEAR(factors.rotor, (228.14 + 140.0) / (228.14 + 25.0), 1e-4);
}

TEST(HeatNetwork, ResistancesAreAsGivenAtTheTemperatureAtWhichTheyAreGiven) {
    HeatParameters heat = default_heat();
    heat.resistance_temperature_C = 75.0;
    const std::array<double, 4> x = {75.0, 75.0, 75.0, 75.0};
    const auto factors = HeatNetwork(heat, support::lossy_motor(), {}).resistance_factors(x.data());
    EXPECT_EQ(factors.main, 1.0);
    EXPECT_EQ(factors.aux, 1.0);
    EXPECT_EQ(factors.rotor, 1.0);
}

// 30 A/mm2 in copper: J^2 rho / (c density) = 4.5 K/s at 20 C, whatever the motor.
TEST(HeatNetwork, DerivedMassWarmsByFiveKelvinASecondWithTheRotorLocked) {
    for (const auto& motor : {support::two_pole_motor(), support::lossy_motor()}) {
        const double resistance = motor.main_resistance_ohm + motor.rotor_resistance_ohm;
        const double reactance =
            motor.main_leakage_reactance_ohm + motor.rotor_leakage_reactance_ohm;
        const double current_A = motor.rated_voltage_V / std::hypot(resistance, reactance);
        UnitSignals signals;
        signals.main_copper_W = current_A * current_A * motor.main_resistance_ohm;
        const HeatNetwork heat(default_heat(), motor, {});
        const std::array<double, 4> x = {25.0, 25.0, 25.0, 25.0};
        std::array<double, 4> rate{};
        heat.derivatives(x.data(), rate.data(), signals);
        EXPECT_NEAR(rate[HeatNetwork::main_winding], 4.5, 0.1);
    }
}

TEST(HeatParameters, RefuseTimeConstantsThatContradictEachOther) {
    HeatParameters heat = default_heat();
    EXPECT_EQ(heat.inconsistency(), "");
    heat.shell_time_constant_s = 100.0;
    EXPECT_EQ(heat.inconsistency().substr(0, 21), "shell_time_constant_s");
    heat = default_heat();
    heat.running_shell_time_constant_s = 3000.0;
    EXPECT_EQ(heat.inconsistency().substr(0, 29), "running_shell_time_constant_s");
}

TEST(HeatParameters, RefuseMassesOfNearlyNothing) {
    HeatParameters heat = default_heat();
    heat.aux_winding_mass_kg = 1e-6;
    EXPECT_NE(heat.inconsistency().find("aux_winding_mass_kg"), std::string_view::npos);
    heat = default_heat();
    heat.shell_mass_kg = 1e-6;
    EXPECT_NE(heat.inconsistency().find("shell_mass_kg"), std::string_view::npos);
}

}  // namespace
