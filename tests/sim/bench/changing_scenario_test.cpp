// What [[change]] tables make of a scenario, start by start.
#include "sim/bench/changing_scenario.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "scenario/scenario_text.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace {

sim::Scenario with_changes(const std::string& changes) {
    return sim::parse_scenario(sim_test::right_scenario() + changes, "cellar.toml");
}

double capacitor_uF(const sim::ChangingScenario& world) {
    return world.now().motor.run_capacitor_uF;
}
const plant_models::PolynomialLoadParameters& load_of(const sim::ChangingScenario& world) {
    return std::get<plant_models::PolynomialLoadParameters>(world.now().load);
}
double voltage_V(const sim::ChangingScenario& world) {
    return std::get<plant_models::GridParameters>(world.now().source).voltage_V;
}

TEST(ChangingScenario, WithoutChangesIsTheScenarioAtEveryStart) {
    const sim::Scenario scenario = with_changes("");
    sim::ChangingScenario world(scenario, 300.0, 50);
    for (int start = 2; start <= 50; ++start) {
        EXPECT_FALSE(world.enter(start));
        EXPECT_EQ(world.rest_s(), 300.0);
        EXPECT_EQ(capacitor_uF(world), 30.0);
        EXPECT_EQ(world.words(), "");
    }
}

TEST(ChangingScenario, ChangesBeforeItsStartAndStaysSo) {
    const sim::Scenario scenario = with_changes(
        "[[change]]\nbefore_start = 4\nambient_C = 38\nrest_between_s = 900\n"
        "line_voltage_factor = 0.9\nrun_capacitor_factor = 0.8\nfriction_factor = 2\n");
    sim::ChangingScenario world(scenario, 300.0, 9);
    for (int start = 2; start <= 9; ++start) {
        EXPECT_EQ(world.enter(start), start == 4);
        const bool later = start >= 4;
        EXPECT_EQ(world.rest_s(), later ? 900.0 : 300.0);
        EXPECT_EQ(world.now().conditions.ambient_C, later ? 38.0 : 25.0);
        EXPECT_DOUBLE_EQ(voltage_V(world), later ? 0.9 * 235.5 : 235.5);
        EXPECT_DOUBLE_EQ(capacitor_uF(world), later ? 24.0 : 30.0);
        EXPECT_DOUBLE_EQ(load_of(world).breakaway_torque_Nm, later ? 3.0 : 1.5);
        EXPECT_DOUBLE_EQ(load_of(world).constant_torque_Nm, later ? 2.5 : 1.25);
        EXPECT_DOUBLE_EQ(load_of(world).square_torque_Nm, 5.0);
        EXPECT_TRUE(world.kept().unit);
        EXPECT_EQ(world.kept().supply, start != 4);
        EXPECT_EQ(world.words(),
                  start == 4 ? "ambient 38 C, 900 s of rest, line voltage x 0.9, run capacitor x "
                               "0.8, friction x 2"
                             : "");
    }
}

TEST(ChangingScenario, FactorsAreOfWhatTheScenarioGivesNotOfEachOther) {
    const sim::Scenario scenario = with_changes(
        "[[change]]\nbefore_start = 2\nrun_capacitor_factor = 0.5\n"
        "[[change]]\nbefore_start = 3\nrun_capacitor_factor = 0.5\n"
        "[[change]]\nbefore_start = 4\nrun_capacitor_factor = 1\n");
    sim::ChangingScenario world(scenario, 300.0, 4);
    world.enter(2);
    EXPECT_DOUBLE_EQ(capacitor_uF(world), 15.0);
    world.enter(3);
    EXPECT_DOUBLE_EQ(capacitor_uF(world), 15.0);
    world.enter(4);
    EXPECT_DOUBLE_EQ(capacitor_uF(world), 30.0);
}

TEST(ChangingScenario, ADriftMultipliesBeforeEachStartFromItsOwnOn) {
    const sim::Scenario scenario = with_changes(
        "[[change]]\nbefore_start = 10\nrun_capacitor_factor_per_start = 0.9995\n"
        "friction_factor_per_start = 1.001\n");
    sim::ChangingScenario world(scenario, 300.0, 509);
    for (int start = 2; start <= 509; ++start) {
        EXPECT_EQ(world.enter(start), start >= 10);
        const int steps = start >= 10 ? start - 9 : 0;
        ASSERT_NEAR(capacitor_uF(world), 30.0 * std::pow(0.9995, steps), 1e-9);
        ASSERT_NEAR(load_of(world).breakaway_torque_Nm, 1.5 * std::pow(1.001, steps), 1e-9);
        EXPECT_EQ(world.words().empty(), start != 10) << "a drift is told once";
    }
    EXPECT_NEAR(capacitor_uF(world), 30.0 * 0.779, 0.01);
}

TEST(ChangingScenario, AnotherCompressorComesNewAndStandsStill) {
    const sim::Scenario scenario = with_changes(
        "[[change]]\nbefore_start = 2\nrun_capacitor_factor = 0.8\n"
        "friction_factor_per_start = 1.01\nambient_C = 30\n"
        "[[change]]\nbefore_start = 3\ncompressor = \"cold_room_230v_50hz\"\n");
    sim::ChangingScenario world(scenario, 300.0, 4);
    world.enter(2);
    world.enter(3);
    EXPECT_FALSE(world.kept().unit);
    EXPECT_TRUE(world.kept().supply);
    EXPECT_EQ(world.words(), "compressor cold_room_230v_50hz");
    EXPECT_EQ(world.now().motor.run_capacitor_uF, 25.0);
    EXPECT_EQ(world.now().motor.friction_loss_W, 19.245);
    EXPECT_EQ(world.now().conditions.ambient_C, 30.0);
    EXPECT_GE(world.now().conditions.rest_s, 3600.0);
    EXPECT_TRUE(std::holds_alternative<plant_models::ReciprocatingParameters>(world.now().load));
    EXPECT_TRUE(
        std::holds_alternative<plant_models::LineBreakParameters>(world.now().unit.protector));
    EXPECT_FALSE(world.enter(4)) << "the wear was the old one's";
}

std::string fault_of_series(const std::string& changes, int starts) {
    try {
        sim::ChangingScenario(with_changes(changes), 300.0, starts);
    } catch (const sim::InputError& error) {
        return error.what();
    }
    return "runs";
}

TEST(ChangingScenario, RefusesADriftThatLeavesTheBoundsWithinTheSeriesBeforeItBegins) {
    const std::string drift =
        "[[change]]\nbefore_start = 2\nrun_capacitor_factor_per_start = 0.9\n";
    EXPECT_EQ(fault_of_series(drift, 30), "runs");
    const std::string fault = fault_of_series(drift, 60);
    EXPECT_NE(fault.find("cellar.toml:31: change: before start 40, "), std::string::npos) << fault;
    EXPECT_NE(fault.find("run_capacitor_uF"), std::string::npos) << fault;
    EXPECT_NE(fault_of_series("[[change]]\nbefore_start = 2\nline_voltage_factor = 0.5\n"
                              "friction_factor_per_start = 1.1\n",
                              80)
                  .find("breakaway_torque_Nm would become "),
              std::string::npos);
}

}  // namespace
