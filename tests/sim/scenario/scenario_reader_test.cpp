#include "sim/scenario/scenario_reader.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <variant>

#include "files/temporary_folder.hpp"
#include "scenario/scenario_text.hpp"

namespace {

using sim_test::replaced;
using sim_test::right_scenario;

TEST(ScenarioReader, PutsEveryNumberWhereItBelongs) {
    const sim::Scenario scenario = sim::parse_scenario(right_scenario(), "huts/cellar.toml");
    EXPECT_EQ(scenario.name, "cellar");
    EXPECT_EQ(scenario.title, "cellar");
    EXPECT_EQ(scenario.motor.poles, 4);
    EXPECT_EQ(scenario.motor.rated_voltage_V, 230.0);
    EXPECT_EQ(scenario.motor.rated_frequency_Hz, 50.0);
    EXPECT_EQ(scenario.motor.main_resistance_ohm, 1.5);
    EXPECT_EQ(scenario.motor.main_leakage_reactance_ohm, 2.5);
    EXPECT_EQ(scenario.motor.aux_resistance_ohm, 4.5);
    EXPECT_EQ(scenario.motor.aux_leakage_reactance_ohm, 3.5);
    EXPECT_EQ(scenario.motor.turns_ratio, 1.25);
    EXPECT_EQ(scenario.motor.rotor_resistance_ohm, 2.25);
    EXPECT_EQ(scenario.motor.rotor_leakage_reactance_ohm, 2.75);
    EXPECT_EQ(scenario.motor.magnetizing_reactance_ohm, 60.0);
    EXPECT_EQ(scenario.motor.inertia_kg_m2, 0.0075);
    EXPECT_EQ(scenario.motor.run_capacitor_uF, 30.0);
    const auto& load = std::get<plant_models::PolynomialLoadParameters>(scenario.load);
    EXPECT_EQ(load.breakaway_torque_Nm, 1.5);
    EXPECT_EQ(load.constant_torque_Nm, 1.25);
    EXPECT_EQ(load.square_torque_Nm, 5.0);
    EXPECT_EQ(load.reference_speed_rpm, 1450.0);
    const auto& grid = std::get<plant_models::GridParameters>(scenario.source);
    EXPECT_EQ(grid.voltage_V, 235.5);
    EXPECT_EQ(grid.resistance_ohm, 0.25);
    EXPECT_EQ(grid.inductance_mH, 0.5);
    EXPECT_EQ(grid.phase_deg, 90.0);
    EXPECT_TRUE(std::holds_alternative<sim::NoLimiter>(scenario.limiter));
}

TEST(ScenarioReader, FillsInTheDocumentedDefaults) {
    const sim::Scenario scenario = sim::parse_scenario(right_scenario(), "cellar.toml");
    EXPECT_EQ(scenario.motor.run_capacitor_esr_ohm, 0.0);
    EXPECT_EQ(scenario.run.duration_s, 3.0);
    EXPECT_EQ(scenario.run.seed, 1);
    EXPECT_EQ(scenario.run.initial_speed_rpm, 0.0);
    EXPECT_EQ(scenario.run.call_on_s, 0.0);
    EXPECT_EQ(scenario.run.call_off_s, 0.0);
    EXPECT_EQ(scenario.expect.outcome, sim::Outcome::running);
    EXPECT_EQ(scenario.limits.start_capacitor_max_s, 3.0);
    EXPECT_EQ(scenario.limits.standing_rotor_max_s, 5.0);
    EXPECT_EQ(scenario.limits.minimum_rest_s, 180.0);
    EXPECT_EQ(scenario.limits.bypass_minimum_speed_percent, 85.0);
    EXPECT_EQ(scenario.limits.supply_low_percent, 60.0);
    EXPECT_EQ(scenario.limits.supply_high_percent, 120.0);
    EXPECT_EQ(scenario.limits.supply_frequency_low_Hz, 45.0);
    EXPECT_EQ(scenario.limits.supply_frequency_high_Hz, 65.0);
}

TEST(ScenarioReader, ReadsTheTablesThatMayBeLeftOut) {
    const sim::Scenario scenario = sim::parse_scenario(right_scenario() + R"(
[scenario]
title = "Keller, 4 °C"
[run]
duration_s = 12.5
seed = 2147483647
initial_speed_rpm = -30.5
call_on_s = 1
call_off_s = 9
[expect]
outcome = "locked_out"
[limits]
minimum_rest_s = 240
)",
                                                       "cellar.toml");
    EXPECT_EQ(scenario.name, "cellar");
    EXPECT_EQ(scenario.title, "Keller, 4 °C");
    EXPECT_EQ(scenario.run.duration_s, 12.5);
    EXPECT_EQ(scenario.run.seed, 2147483647);
    EXPECT_EQ(scenario.run.initial_speed_rpm, -30.5);
    EXPECT_EQ(scenario.run.call_on_s, 1.0);
    EXPECT_EQ(scenario.run.call_off_s, 9.0);
    EXPECT_EQ(scenario.expect.outcome, sim::Outcome::locked_out);
    EXPECT_EQ(scenario.limits.minimum_rest_s, 240.0);
    EXPECT_EQ(scenario.limits.standing_rotor_max_s, 5.0);
}

TEST(ScenarioReader, ChoosesTheSupplyByItsKindAndDefaultsTheRestOfIt) {
    std::string text = right_scenario();
    const std::size_t source = text.find("[source]");
    text.replace(source, text.find("[limiter]") - source, R"([source]
kind = "inverter"
voltage_V = 220
frequency_Hz = 50
peak_current_limit_A = 45
)");
    const sim::Scenario scenario = sim::parse_scenario(text, "cellar.toml");
    const auto& inverter = std::get<plant_models::InverterParameters>(scenario.source);
    EXPECT_EQ(inverter.voltage_V, 220.0);
    EXPECT_EQ(inverter.peak_current_limit_A, 45.0);
    EXPECT_EQ(inverter.overload_time_s, 5.0);
    EXPECT_EQ(inverter.filter_capacitance_uF, 10.0);
}

TEST(ScenarioReader, ReadsTheLimitersPowerPartsBesideItsController) {
    const std::string text = replaced(right_scenario(), "kind = \"none\"",
                                      "kind = \"builtin\"\nstart_capacitor_uF = 0\n");
    const sim::Scenario scenario = sim::parse_scenario(text, "cellar.toml");
    const auto& limiter = std::get<sim::BuiltinLimiter>(scenario.limiter);
    EXPECT_EQ(limiter.parts.start_capacitor_uF, 0.0);
    EXPECT_EQ(limiter.parts.start_capacitor_esr_ohm, 0.15);
    EXPECT_EQ(limiter.parts.contact_close_ms, 12.0);
}

TEST(ScenarioReader, AcceptsEveryWayInWhichTomlWritesTheSameThing) {
    std::string text = right_scenario();
    text = replaced(text, "poles = 4", "poles = 0x4");
    text = replaced(text, "rated_voltage_V = 230", "\"rated_voltage_V\" = 2.3e2");
    text = replaced(text, "[limiter]\nkind = \"none\"", "limiter.kind = 'none'");
    text = replaced(text, "limiter.kind = 'none'", "");
    text = "limiter.kind = 'none'\nrun = { duration_s = 1 }\n" + text;
    const sim::Scenario scenario = sim::parse_scenario(text, "cellar.toml");
    EXPECT_EQ(scenario.motor.poles, 4);
    EXPECT_EQ(scenario.motor.rated_voltage_V, 230.0);
    EXPECT_EQ(scenario.run.duration_s, 1.0);
}

TEST(ScenarioReader, DoesNotKeepTheSignOfAZero) {
    const sim::Scenario scenario = sim::parse_scenario(
        replaced(right_scenario(), "resistance_ohm = 0.25", "resistance_ohm = -0.0"), "a.toml");
    EXPECT_FALSE(
        std::signbit(std::get<plant_models::GridParameters>(scenario.source).resistance_ohm));
}

TEST(ScenarioReader, ReadsAFileByItsPath) {
    const sim_test::TemporaryFolder folder;
    const std::string path = folder.put("ice house.toml", right_scenario());
    EXPECT_EQ(sim::read_scenario(path).name, "ice house");
}

}  // namespace
