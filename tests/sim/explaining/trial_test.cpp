#include "sim/explaining/trial.hpp"

#include <gtest/gtest.h>

#include "bench/cases.hpp"

namespace {

using sim::Patience;
using sim_test::bundled;

TEST(Trial, DecidesEarlyWhatAFullRunDecides) {
    for (const char* name :
         {"hut_inverter", "hut_inverter_direct", "bakery_short_rest", "clinic_power_cut",
          "cabin_battery_trip", "camp_generator", "hut_module_misjudges", "hut_thyristor_shorted",
          "garage_swapped_windings", "reference_direct", "vaccine_fridge"}) {
        const sim::Scenario scenario = bundled(name);
        const sim::Trial early = sim::try_start(scenario, Patience::until_decided);
        EXPECT_EQ(early.comes_up, sim::comes_up(sim::run_start(scenario))) << name;
    }
}

TEST(Trial, AStartThatHasComeUpOrTrippedIsNotWatchedToItsEnd) {
    const sim::Trial up = sim::try_start(bundled("hut_inverter"), Patience::until_decided);
    EXPECT_TRUE(up.was_guessed);
    EXPECT_LT(up.seconds, 2.0);
    const sim::Trial tripped =
        sim::try_start(bundled("cabin_battery_trip"), Patience::until_decided);
    EXPECT_FALSE(tripped.was_guessed);
    EXPECT_EQ(tripped.outcome, sim::Outcome::supply_tripped);
    EXPECT_LT(tripped.seconds, 0.5);
}

TEST(Trial, WaitsForWhatTheScenarioPutsLater) {
    // The cut comes at 1 s, when the rotor has long been up.
    const sim::Trial trial = sim::try_start(bundled("clinic_power_cut"), Patience::until_decided);
    EXPECT_EQ(trial.outcome, sim::Outcome::running_backwards);
}

TEST(Trial, ARunningStartThatBrokeAMonitorDoesNotCount) {
    sim::Scenario scenario = bundled("reference_direct");
    EXPECT_TRUE(sim::try_start(scenario, Patience::to_the_end).comes_up);
    scenario.limits.standing_rotor_max_s = 0.1;
    const sim::Trial trial = sim::try_start(scenario, Patience::to_the_end);
    EXPECT_EQ(trial.outcome, sim::Outcome::running);
    EXPECT_FALSE(trial.comes_up);
    EXPECT_EQ(trial.cause, "standing_rotor_fed_too_long");
}

}  // namespace
