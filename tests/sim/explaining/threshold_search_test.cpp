#include "sim/explaining/threshold_search.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "bench/cases.hpp"
#include "explaining/explained_cases.hpp"
#include "sim/explaining/change_list.hpp"

namespace {

using sim_test::bundled;
using sim_test::bundled_with;

const sim::Interrupted never = [] { return false; };

sim::WayOfChange searched(const sim::Scenario& scenario, const sim::Change& change) {
    const bool begins_up = sim::comes_up(sim::run_start(scenario));
    return *sim::search_way(scenario, change, begins_up, sim::Fineness{}, never);
}

bool comes_up_from_file(const char* name, const char* key, double value) {
    return sim::comes_up(sim::run_start(bundled_with(name, key, std::to_string(value))));
}

TEST(ThresholdSearch, BothSidesOfALimitHoldForWhoeverWritesThemIntoTheFile) {
    const sim::Scenario bakery = bundled("bakery_short_rest");
    const sim::WayOfChange rest = searched(bakery, sim::longer_rest(bakery).front());
    ASSERT_TRUE(rest.turn);
    EXPECT_FALSE(comes_up_from_file("bakery_short_rest", "rest_s", rest.turn->before));
    EXPECT_TRUE(comes_up_from_file("bakery_short_rest", "rest_s", rest.turn->after));

    const sim::Scenario farm = bundled("farm_contactor_chatter");
    const sim::WayOfChange cable = searched(farm, sim::shorter_cable(farm).front());
    ASSERT_TRUE(cable.turn);
    EXPECT_LT(cable.turn->after, cable.turn->before);
    EXPECT_FALSE(
        comes_up_from_file("farm_contactor_chatter", "branch_length_m", cable.turn->before));
    EXPECT_TRUE(comes_up_from_file("farm_contactor_chatter", "branch_length_m", cable.turn->after));

    const sim::Scenario hut = bundled("hut_inverter_direct");
    const sim::WayOfChange capacitor = searched(hut, sim::larger_run_capacitor(hut).front());
    ASSERT_TRUE(capacitor.turn);
    EXPECT_FALSE(
        comes_up_from_file("hut_inverter_direct", "run_capacitor_uF", capacitor.turn->before));
    EXPECT_TRUE(
        comes_up_from_file("hut_inverter_direct", "run_capacitor_uF", capacitor.turn->after));
}

TEST(ThresholdSearch, BothSidesOfALimitLieWithinTwoPerCent) {
    const sim::Scenario bakery = bundled("bakery_short_rest");
    const sim::WayOfChange way = searched(bakery, sim::longer_rest(bakery).front());
    ASSERT_TRUE(way.turn);
    EXPECT_GT(way.turn->after, way.turn->before);
    EXPECT_LE(way.turn->after / way.turn->before, 1.02);
}

TEST(ThresholdSearch, KeepsEveryValueItTriedInTheOrderOfTheWay) {
    const sim::Scenario reference = bundled("reference_direct");
    const sim::WayOfChange way = searched(reference, sim::lower_line_voltage(reference).front());
    ASSERT_TRUE(way.turn);
    EXPECT_TRUE(std::is_sorted(way.tried.begin(), way.tried.end(),
                               [](const sim::TriedValue& one, const sim::TriedValue& other) {
                                   return one.value > other.value;
                               }));
    EXPECT_GE(way.reruns, static_cast<int>(way.tried.size()));
    EXPECT_EQ(way.tried.back().value, way.change.boldest);
}

/// A made-up measure that is good only between 2 and 3: the bakery rests long enough there.
sim::Change window() {
    sim::Change change;
    change.name = "window";
    change.what = "a measure with a window";
    change.spacing = sim::Spacing::ratio;
    change.given = 1.0;
    change.boldest = 16.0;
    change.set = [](sim::Scenario& changed, double value) {
        changed.conditions.rest_s = value >= 2.0 && value <= 3.0 ? 300.0 : 20.0;
    };
    return change;
}

TEST(ThresholdSearch, SaysThatAWayTurnsBackAgain) {
    const sim::WayOfChange way = searched(bundled("bakery_short_rest"), window());
    ASSERT_TRUE(way.turn);
    EXPECT_NEAR(way.turn->after, 2.0, 0.04);
    EXPECT_FALSE(way.stays_turned());
    EXPECT_FALSE(way.tried.back().comes_up);
}

TEST(ThresholdSearch, AGuessThatTurnsOutWrongIsNoLimit) {
    // Up after half a second, on more than the inverter may carry for ever; it trips at 1.6 s.
    sim::Scenario scenario = bundled("reference_direct");
    plant_models::InverterParameters inverter =
        std::get<plant_models::InverterParameters>(bundled("hut_inverter_direct").source);
    inverter.peak_current_limit_A = 200.0;
    inverter.rated_current_A = 5.0;
    inverter.refill_power_W = 46000.0;
    inverter.overload_time_s = 1.6;
    scenario.source = inverter;
    scenario.run.duration_s = 3.0;
    ASSERT_EQ(sim::run_start(scenario).cause, "inverter_overload");
    ASSERT_TRUE(sim::try_start(scenario, sim::Patience::until_decided).was_guessed);
    const sim::WayOfChange way = searched(scenario, sim::larger_run_capacitor(scenario).front());
    EXPECT_FALSE(way.turn);
    for (const sim::TriedValue& one : way.tried) {
        EXPECT_FALSE(one.comes_up) << one.value;
    }
}

TEST(ThresholdSearch, AnInterruptedSearchShowsNothing) {
    const sim::Scenario bakery = bundled("bakery_short_rest");
    int asked = 0;
    const auto way = sim::search_way(bakery, sim::longer_rest(bakery).front(), false,
                                     sim::Fineness{}, [&asked] { return ++asked > 3; });
    EXPECT_FALSE(way);
    EXPECT_EQ(asked, 4);
}

}  // namespace
