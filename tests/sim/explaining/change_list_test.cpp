#include "sim/explaining/change_list.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "bench/cases.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace {

using sim_test::bundled;

sim::Changes all_changes(const sim::Scenario& scenario) {
    sim::Changes all = sim::remedies_for(scenario);
    const sim::Changes strains = sim::strains_for(scenario);
    all.insert(all.end(), strains.begin(), strains.end());
    return all;
}

bool has_change(const sim::Changes& changes, const std::string& name) {
    return std::any_of(changes.begin(), changes.end(),
                       [&name](const sim::Change& change) { return change.name == name; });
}

TEST(ChangeList, EveryBoldestValueAndEveryStepCanBeRun) {
    for (const std::string& name : sim_test::bundled_names()) {
        const sim::Scenario scenario = bundled(name);
        for (const sim::Change& change : all_changes(scenario)) {
            EXPECT_EQ(sim::problem_with(sim::with_change(scenario, change, change.boldest)), "")
                << name << " " << change.name;
            for (const double step : change.steps) {
                EXPECT_EQ(sim::problem_with(sim::with_change(scenario, change, step)), "")
                    << name << " " << change.name << " " << step;
            }
        }
    }
}

TEST(ChangeList, NoNameStandsTwiceInAList) {
    for (const std::string& name : sim_test::bundled_names()) {
        for (const sim::Changes& changes :
             {sim::remedies_for(bundled(name)), sim::strains_for(bundled(name))}) {
            std::set<std::string> names;
            for (const sim::Change& change : changes) {
                EXPECT_TRUE(names.insert(change.name).second) << name << " " << change.name;
            }
        }
    }
}

/// The measure of a change is right only if the given value is the scenario itself.
void expect_given_value_changes_nothing(const sim::Scenario& scenario) {
    const sim::StartResult before = sim::run_start(scenario);
    for (const sim::Change& change : all_changes(scenario)) {
        const bool has_measure =
            change.spacing == sim::Spacing::ratio || change.spacing == sim::Spacing::difference;
        if (!has_measure) {
            continue;
        }
        const sim::StartResult after =
            sim::run_start(sim::with_change(scenario, change, change.given));
        EXPECT_EQ(after.outcome, before.outcome) << scenario.name << " " << change.name;
        EXPECT_NEAR(after.figures.line_current_peak_A, before.figures.line_current_peak_A, 1e-6)
            << scenario.name << " " << change.name;
        EXPECT_NEAR(after.figures.final_speed_rpm, before.figures.final_speed_rpm, 1e-3)
            << scenario.name << " " << change.name;
    }
}

TEST(ChangeList, AtTheGivenValueNothingIsDifferent) {
    for (const char* name :
         {"hut_inverter", "cabin_battery_trip", "camp_generator", "farm_contactor_chatter",
          "refrigerator_hot_restart", "farm_run_capacitor_open"}) {
        expect_given_value_changes_nothing(bundled(name));
    }
}

TEST(ChangeList, AtTheGivenValueNothingIsDifferentOnAnySupplyOfTheLibrary) {
    for (const sim::LibraryEntry& entry : sim::library_supplies()) {
        const sim::Scenario supply = sim::parse_library_entry(entry);
        sim::Scenario scenario = bundled("reference_limited");
        scenario.source = supply.source;
        scenario.wiring = supply.wiring;
        scenario.name = std::string(entry.name);
        scenario.run.duration_s = 0.5;
        scenario.motor.rated_voltage_V = nominal_voltage_V(supply.source);
        scenario.motor.rated_frequency_Hz = nominal_frequency_Hz(supply.source);
        ASSERT_EQ(sim::problem_with(scenario), "") << entry.name;
        expect_given_value_changes_nothing(scenario);
    }
}

TEST(ChangeList, OffersOnlyWhatTheScenarioHas) {
    const sim::Changes on_grid = sim::remedies_for(bundled("dairy_50hz"));
    EXPECT_TRUE(has_change(on_grid, "stiffer_line"));
    EXPECT_FALSE(has_change(on_grid, "higher_current_limit"));
    EXPECT_FALSE(has_change(on_grid, "larger_generator"));
    EXPECT_FALSE(has_change(on_grid, "longer_rest")) << "a polynomial load knows no rest";
    EXPECT_FALSE(has_change(on_grid, "limiter")) << "it has one";
    const sim::Changes on_inverter = sim::remedies_for(bundled("hut_inverter_direct"));
    EXPECT_TRUE(has_change(on_inverter, "higher_current_limit"));
    EXPECT_TRUE(has_change(on_inverter, "more_bus_storage"));
    EXPECT_TRUE(has_change(on_inverter, "limiter"));
    EXPECT_FALSE(has_change(on_inverter, "stiffer_line"));
    EXPECT_FALSE(has_change(on_inverter, "bolder_ladder"));
    const sim::Changes on_battery = sim::remedies_for(bundled("cabin_battery_trip"));
    EXPECT_TRUE(has_change(on_battery, "larger_battery"));
    EXPECT_TRUE(has_change(on_battery, "fuller_battery"));
    EXPECT_TRUE(has_change(sim::remedies_for(bundled("camp_generator")), "larger_generator"));
    EXPECT_TRUE(has_change(sim::remedies_for(bundled("clinic_power_cut")), "no_sag"));
    EXPECT_TRUE(has_change(sim::remedies_for(bundled("hut_module_misjudges")), "module_set_lower"));
    EXPECT_TRUE(has_change(sim::remedies_for(bundled("boat_shed_cold_morning")), "warmer_oil"));
}

TEST(ChangeList, ARunCapacitorBelowTheLibrarysMayBeAFreshOne) {
    const std::string unit =
        "[library]\ncompressor = \"milk_cooler_240v_50hz\"\nsupply = \"rural_grid_230v_50hz\"\n"
        "[limiter]\nkind = \"none\"\n";
    EXPECT_FALSE(has_change(sim::remedies_for(sim::parse_scenario(unit, "sound.toml")),
                            "fresh_run_capacitor"));
    const sim::Scenario aged =
        sim::parse_scenario(unit + "[motor]\nrun_capacitor_uF = 20\n", "aged.toml");
    const sim::Changes fresh = sim::fresh_run_capacitor(aged);
    ASSERT_EQ(fresh.size(), 1U);
    EXPECT_EQ(sim::with_change(aged, fresh.front(), fresh.front().boldest).motor.run_capacitor_uF,
              sim::parse_scenario(unit, "sound.toml").motor.run_capacitor_uF);
}

TEST(ChangeList, AHigherCurrentLimitDoesNotBringALargerInverterWithIt) {
    const sim::Scenario hut = bundled("hut_inverter_direct");
    const auto before = std::get<plant_models::InverterParameters>(hut.source).completed();
    const sim::Scenario changed =
        sim::with_change(hut, sim::higher_current_limit(hut).front(), 120.0);
    const auto after = std::get<plant_models::InverterParameters>(changed.source).completed();
    EXPECT_EQ(after.peak_current_limit_A, 120.0);
    EXPECT_EQ(after.rated_current_A, before.rated_current_A);
    EXPECT_EQ(after.refill_power_W, before.refill_power_W);
    EXPECT_EQ(after.bus_capacitance_uF, before.bus_capacitance_uF);
}

TEST(ChangeList, ALargerInverterIsLargerInEveryRating) {
    const sim::Scenario hut = bundled("hut_inverter_direct");
    const auto before = std::get<plant_models::InverterParameters>(hut.source).completed();
    const sim::Change larger = sim::larger_inverter(hut).front();
    const sim::Scenario changed = sim::with_change(hut, larger, 2.0 * larger.given);
    const auto after = std::get<plant_models::InverterParameters>(changed.source).completed();
    EXPECT_NEAR(after.peak_current_limit_A, 2.0 * before.peak_current_limit_A, 1e-9);
    EXPECT_NEAR(after.rated_current_A, 2.0 * before.rated_current_A, 1e-9);
    EXPECT_NEAR(after.refill_power_W, 2.0 * before.refill_power_W, 1e-6);
    EXPECT_NEAR(after.bus_capacitance_uF, 2.0 * before.bus_capacitance_uF, 1e-6);
}

}  // namespace
