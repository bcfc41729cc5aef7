// What the pressures that the last run has left do to a start. All common practice: a compressor
// needs 3 to 5 minutes of rest so that pressures equalise (also on nameplates, seen).
#include <gtest/gtest.h>

#include "facts/facts_bench.hpp"

namespace {

using facts::bakery_after;
using facts::comes_up;
using facts::grid_of;
using facts::pistons_of;

TEST(ScrollAgainstPressure, StartsWhereTheSameMotorWithPistonsDoesNot) {
    // Soon after the stop. Half a minute later the suction has risen so far that this scroll has
    // its plenum full before the motor has left the weak part of its torque curve, and is thrown
    // back.
    for (const double rest_s : {0.0, 20.0}) {
        sim::Scenario pistons = bakery_after(rest_s);
        sim::Scenario scroll = pistons;
        scroll.load = facts::of_the_same_size<plant_models::ScrollParameters>(pistons);
        for (const double phase_deg : facts::points_on_wave_deg) {
            grid_of(pistons).phase_deg = phase_deg;
            grid_of(scroll).phase_deg = phase_deg;
            EXPECT_TRUE(comes_up(scroll)) << rest_s << " s, " << phase_deg << " deg";
            EXPECT_FALSE(comes_up(pistons)) << rest_s << " s, " << phase_deg << " deg";
        }
    }
}

TEST(ScrollAgainstPressure, StandsBeforeTheSameDifferenceAsThePistons) {
    const auto difference_kPa = [](const sim::Scenario& scenario) {
        const auto plant = sim::make_plant_run(sim::describe_plant(scenario));
        const auto& channels = plant->outputs().model_channels;
        return channels[facts::channel(scenario, "discharge_pressure_kPa")] -
               channels[facts::channel(scenario, "suction_pressure_kPa")];
    };
    const sim::Scenario pistons = bakery_after(20.0);
    sim::Scenario scroll = pistons;
    scroll.load = facts::of_the_same_size<plant_models::ScrollParameters>(pistons);
    EXPECT_GT(difference_kPa(pistons), 500.0);
    EXPECT_NEAR(difference_kPa(scroll) / difference_kPa(pistons), 1.0, 0.02);
}

TEST(ShortRest, Of20SecondsFailsWhereOneOf300Succeeds) {
    for (const double phase_deg : facts::points_on_wave_deg) {
        sim::Scenario scenario = bakery_after(20.0);
        grid_of(scenario).phase_deg = phase_deg;
        const sim::StartResult tried = sim::run_start(scenario);
        EXPECT_EQ(tried.outcome, sim::Outcome::stalled) << phase_deg;
        scenario.conditions.rest_s = 300.0;
        EXPECT_TRUE(comes_up(scenario)) << phase_deg;
    }
}

TEST(TightValve, KeepsThePressuresApartWhereAnOrificeOrABleedLetsThemGo) {
    sim::Scenario scenario = bakery_after(300.0);
    EXPECT_TRUE(comes_up(scenario));
    scenario.refrigerant.expansion = "tight_valve";
    EXPECT_FALSE(comes_up(scenario));
    scenario.conditions.rest_s = 3600.0;
    EXPECT_FALSE(comes_up(scenario));

    // A bleed of a quarter of the valve needs four times as long as the orifice, 600 s.
    scenario.refrigerant.expansion = "bleed_valve";
    scenario.conditions.rest_s = 300.0;
    EXPECT_FALSE(comes_up(scenario));
    scenario.conditions.rest_s = 600.0;
    EXPECT_TRUE(comes_up(scenario));
    // A larger bleed does it in the 300 s.
    scenario.conditions.rest_s = 300.0;
    scenario.refrigerant.bleed_percent = 60.0;
    EXPECT_TRUE(comes_up(scenario));
}

TEST(CrankAngle, DecidesAStartAgainstSomeResidualPressure) {
    // 110 s of 150: the margin. At full and at no difference the angle decides nothing.
    int up = 0;
    int down = 0;
    for (double angle_deg = 0.0; angle_deg < 360.0; angle_deg += 30.0) {
        sim::Scenario scenario = bakery_after(110.0);
        pistons_of(scenario).crank_angle_deg = angle_deg;
        (comes_up(scenario) ? up : down) += 1;
        scenario.conditions.rest_s = 20.0;
        EXPECT_FALSE(comes_up(scenario)) << angle_deg;
        scenario.conditions.rest_s = 300.0;
        EXPECT_TRUE(comes_up(scenario)) << angle_deg;
    }
    EXPECT_GE(up, 2);
    EXPECT_GE(down, 2);
}

}  // namespace
