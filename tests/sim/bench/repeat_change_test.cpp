// A world that changes in the middle of a series of starts.
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "bench/cases.hpp"
#include "sim/bench/plant_of_scenario.hpp"
#include "sim/bench/repeat_run.hpp"
#include "sim/files/input_error.hpp"
#include "sim/results/repeat_json.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace {

using sim_test::bundled;

sim::ScenarioChange before(int start) {
    sim::ScenarioChange change;
    change.before_start = start;
    change.file = "cellar.toml";
    change.line = 7;
    return change;
}

sim::Scenario with_change(sim::Scenario scenario, const sim::ScenarioChange& change) {
    scenario.changes.push_back(change);
    return scenario;
}

double inrush_A(const sim::RepeatResult& result, std::size_t row) {
    return result.starts.at(row).start.figures.line_current_inrush_100ms_rms_A.value();
}
double peak_A(const sim::RepeatResult& result, std::size_t row) {
    return result.starts.at(row).start.figures.line_current_peak_A;
}

/// A compressor with heat and protector, started directly.
sim::Scenario cold_room() {
    sim::Scenario scenario = bundled("bakery_short_rest");
    scenario.conditions.rest_s = 3600.0;
    scenario.run.duration_s = 2.0;
    return scenario;
}

/// One of each load with what may be fitted, at rest after a start.
std::vector<std::string> fitted_scenarios() {
    return {"bakery_short_rest", "shop_protector",       "refrigerator_hot_restart",
            "clinic_power_cut",  "hut_module_misjudges", "farm_contactor_chatter",
            "camp_generator",    "cabin_battery_trip",   "vaccine_fridge"};
}

TEST(RepeatChange, ToTheSameNumbersChangesNothingForAnyPlant) {
    // Every state that a rest leaves must cross into the new plant: a factor of 1 shows what is
    // lost on the way.
    for (const std::string& name : fitted_scenarios()) {
        sim::Scenario scenario = bundled(name);
        scenario.run.duration_s = std::min(scenario.run.duration_s, 4.0);
        sim::ScenarioChange change = before(2);
        change.friction_factor = 1.0;
        const sim::RepeatResult plain = sim::run_repeat(scenario, {3, 30.0});
        const sim::RepeatResult changed = sim::run_repeat(with_change(scenario, change), {3, 30.0});
        for (std::size_t row = 0; row < 3; ++row) {
            EXPECT_EQ(plain.starts[row].start.outcome, changed.starts[row].start.outcome) << name;
            EXPECT_NEAR(peak_A(plain, row), peak_A(changed, row), 1e-6 * peak_A(plain, row))
                << name << ", start " << row + 1;
            EXPECT_NEAR(plain.starts[row].start.figures.final_speed_rpm,
                        changed.starts[row].start.figures.final_speed_rpm, 0.01)
                << name << ", start " << row + 1;
        }
        EXPECT_EQ(changed.starts[1].changed, "friction x 1");
    }
}

TEST(RepeatChange, OfTheLineVoltageIsThatOfAScenarioWithThatVoltage) {
    sim::ScenarioChange change = before(3);
    change.line_voltage_factor = 0.9;
    const sim::RepeatResult result =
        sim::run_repeat(with_change(bundled("reference_direct"), change), {4, 300.0});
    sim::Scenario low = bundled("reference_direct");
    std::get<plant_models::GridParameters>(low.source).voltage_V *= 0.9;
    const sim::RepeatResult lower = sim::run_repeat(low, {4, 300.0});
    const sim::RepeatResult usual = sim::run_repeat(bundled("reference_direct"), {4, 300.0});
    EXPECT_DOUBLE_EQ(inrush_A(result, 1), inrush_A(usual, 1));
    EXPECT_NEAR(inrush_A(result, 2), inrush_A(lower, 2), 1e-6 * inrush_A(lower, 2));
    EXPECT_NEAR(inrush_A(result, 3), inrush_A(lower, 3), 1e-6 * inrush_A(lower, 3));
    EXPECT_LT(inrush_A(result, 2), 0.95 * inrush_A(result, 1));
}

/// A bundled compressor with heat and oil, started directly.
sim::Scenario library_start(const std::string& compressor, const std::string& more = "") {
    return sim::parse_scenario("[library]\ncompressor = \"" + compressor +
                                   "\"\nsupply = \"house_grid_230v_50hz\"\n"
                                   "[limiter]\nkind = \"none\"\n[run]\nduration_s = 1.5\n" +
                                   more,
                               "cellar.toml");
}

TEST(RepeatChange, OfTheAmbientMovesThePressuresAndTheHeat) {
    constexpr double long_rest_s = 40000.0;  // the shell follows, the pressures are equal
    sim::Scenario scenario = library_start("cold_room_230v_50hz");
    sim::ScenarioChange change = before(2);
    change.ambient_C = -10.0;
    const sim::RepeatResult chilled =
        sim::run_repeat(with_change(scenario, change), {2, long_rest_s});
    const sim::RepeatResult usual = sim::run_repeat(scenario, {2, long_rest_s});
    scenario.conditions.ambient_C = -10.0;
    const sim::RepeatResult cold = sim::run_repeat(scenario, {2, long_rest_s});
    const auto time_s = [](const sim::RepeatResult& result, std::size_t row) {
        return result.starts.at(row).start.figures.time_to_speed_s.value();
    };
    EXPECT_DOUBLE_EQ(time_s(chilled, 0), time_s(usual, 0));
    // Whatever was before: the start of a unit that was always cold.
    EXPECT_NEAR(time_s(chilled, 1), time_s(cold, 1), 2e-4);
    EXPECT_NEAR(peak_A(chilled, 1), peak_A(cold, 1), 1e-3 * peak_A(cold, 1));
    EXPECT_GT(std::abs(time_s(usual, 1) - time_s(cold, 1)), 2e-3) << "else nothing is shown";
}

TEST(RepeatChange, KeepsThePressuresOfAShortRest) {
    // Stopped with its pressures apart it does not come up again, however its capacitor has aged.
    sim::Scenario scenario = cold_room();
    scenario.run.duration_s = 60.0;
    sim::ScenarioChange change = before(2);
    change.run_capacitor_factor = 0.98;
    const sim::RepeatResult hurried = sim::run_repeat(with_change(scenario, change), {2, 10.0});
    EXPECT_EQ(hurried.starts[0].start.outcome, sim::Outcome::running);
    EXPECT_NE(hurried.starts[1].start.outcome, sim::Outcome::running);
}

TEST(RepeatChange, ToAnotherCompressorIsItsStartFromRest) {
    const sim::Scenario scenario = library_start(
        "cold_room_230v_50hz",
        "[[change]]\nbefore_start = 2\ncompressor = \"heat_pump_scroll_230v_50hz\"\n");
    const sim::RepeatResult result = sim::run_repeat(scenario, {2, 60.0});
    sim::Scenario other = library_start("heat_pump_scroll_230v_50hz");
    other.conditions.rest_s = 86400.0;
    const sim::RepeatResult alone = sim::run_repeat(other, {1, 60.0});
    const sim::StartFigures& seen = result.starts[1].start.figures;
    const sim::StartFigures& expected = alone.starts[0].start.figures;
    // The call comes at another phase of the line, which only the first cycles show.
    EXPECT_NEAR(seen.final_speed_rpm, expected.final_speed_rpm, 1.0);
    EXPECT_NEAR(seen.line_current_inrush_100ms_rms_A.value(),
                expected.line_current_inrush_100ms_rms_A.value(),
                0.05 * expected.line_current_inrush_100ms_rms_A.value());
    EXPECT_GT(std::abs(result.starts[0].start.figures.line_current_inrush_100ms_rms_A.value() -
                       expected.line_current_inrush_100ms_rms_A.value()),
              5.0)
        << "else nothing is shown";
    EXPECT_EQ(result.starts[1].changed, "compressor heat_pump_scroll_230v_50hz");
    EXPECT_LT(result.starts[1].start.energy.closure(), 1e-4);
}

TEST(RepeatChange, LeavesTheControllerAsItWas) {
    // Its rest is not over: it would not know that the compressor is new.
    sim::ScenarioChange change = before(2);
    change.run_capacitor_factor = 0.9;
    const sim::RepeatResult result =
        sim::run_repeat(with_change(bundled("reference_limited"), change), {2, 60.0});
    EXPECT_EQ(result.starts[1].start.cause, "rest_not_over");
}

TEST(RepeatChange, AgesACapacitorOverManyStarts) {
    sim::ScenarioChange change = before(2);
    change.run_capacitor_factor_per_start = 0.98;
    sim::Scenario scenario = with_change(bundled("reference_direct"), change);
    const sim::RepeatResult result = sim::run_repeat(scenario, {12, 300.0});
    // With less capacitance there is less torque, and it takes longer at each start.
    for (std::size_t row = 1; row < result.starts.size(); ++row) {
        EXPECT_GT(result.starts[row].start.figures.time_to_speed_s.value(),
                  result.starts[0].start.figures.time_to_speed_s.value())
            << row;
    }
    sim::Scenario aged = bundled("reference_direct");
    aged.motor.run_capacitor_uF *= std::pow(0.98, 11);
    const sim::RepeatResult expected = sim::run_repeat(aged, {12, 300.0});
    EXPECT_NEAR(result.starts[11].start.figures.time_to_speed_s.value(),
                expected.starts[11].start.figures.time_to_speed_s.value(), 1e-6);
    EXPECT_EQ(result.starts[1].changed, "run capacitor x 0.98 each start");
    EXPECT_EQ(result.starts[2].changed, "");
}

TEST(RepeatChange, WearOfTheBearingsShowsInTheTimeToSpeed) {
    sim::ScenarioChange change = before(2);
    change.friction_factor = 1.3;
    const sim::RepeatResult result =
        sim::run_repeat(with_change(bundled("reference_direct"), change), {2, 300.0});
    EXPECT_GT(result.starts[1].start.figures.time_to_speed_s.value(),
              1.01 * result.starts[0].start.figures.time_to_speed_s.value());
}

TEST(RepeatChange, UnderATurningRotorIsRefusedWithItsPlace) {
    sim::ScenarioChange change = before(2);
    change.friction_factor = 1.1;
    try {
        sim::run_repeat(with_change(bundled("reference_direct"), change), {2, 0.01});
        FAIL() << "was run";
    } catch (const sim::InputError& error) {
        const std::string fault = error.what();
        EXPECT_EQ(fault.find("cellar.toml:7: change: before start 2, the rest of 0.01 s ends"), 0U)
            << fault;
    }
}

TEST(RepeatChange, GivesTheSameBytesEachTime) {
    sim::ScenarioChange change = before(2);
    change.ambient_C = 35.0;
    change.friction_factor_per_start = 1.01;
    const sim::Scenario scenario = with_change(bundled("bakery_short_rest"), change);
    EXPECT_EQ(sim::repeat_json(sim::run_repeat(scenario, {3, 400.0})).dump(),
              sim::repeat_json(sim::run_repeat(scenario, {3, 400.0})).dump());
}

}  // namespace
