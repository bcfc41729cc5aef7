// A short cut of the power and a scroll: the gas that it holds turns it round, and a single-phase
// motor pulls whichever way it turns (common practice).
#include <gtest/gtest.h>

#include "facts/facts_bench.hpp"
#include "plant_models/numeric/units.hpp"

namespace {

using facts::grid_of;

sim::Scenario cut_of(double length_s) {
    sim::Scenario scenario = sim_test::bundled("clinic_power_cut");
    grid_of(scenario).sag_length_s = length_s;
    return scenario;
}

sim::Scenario with_pistons(sim::Scenario scenario) {
    const auto& scroll = std::get<plant_models::ScrollParameters>(scenario.load);
    plant_models::ReciprocatingParameters pistons;
    pistons.cylinders = 2;
    pistons.displacement_cm3 = scroll.displacement_cm3;
    pistons.breakaway_torque_Nm = scroll.breakaway_torque_Nm;
    pistons.bearing_torque_Nm = scroll.bearing_torque_Nm;
    pistons.oil_torque_Nm = scroll.oil_torque_Nm;
    pistons.reference_speed_rpm = scroll.reference_speed_rpm;
    scenario.load = pistons;
    return scenario;
}

/// When the contactor closes again after the cut.
double reclosing_speed_rpm(const sim::Scenario& scenario) {
    double speed_rpm = 0.0;
    bool was_open = false;
    facts::Watch watch([&](const sim::TickView& view) {
        const bool open = view.plant.time_s > 0.5 && !view.plant.line_connected;
        if (was_open && !open) {
            speed_rpm = plant_models::rad_per_s_to_rpm(view.plant.speed_rad_per_s);
        }
        was_open = open;
    });
    sim::run_start(scenario, &watch);
    return speed_rpm;
}

TEST(ScrollAfterAShortCut, RunsBackwardsAndIsNamed) {
    const sim::StartResult result = sim::run_start(cut_of(0.1));
    EXPECT_EQ(result.outcome, sim::Outcome::running_backwards);
    EXPECT_EQ(result.cause, "rotor_turns_backwards");
    EXPECT_LT(result.figures.final_speed_rpm, -0.9 * result.synchronous_speed_rpm);
}

TEST(ScrollAfterAShortCut, IsTurnedRoundAlwaysAndStaysSoFromSomePointsOnTheWave) {
    // Closing near the voltage's zero brings a surge that can throw it forwards again.
    int backwards = 0;
    for (const double phase_deg : facts::points_on_wave_deg) {
        sim::Scenario scenario = cut_of(0.1);
        grid_of(scenario).phase_deg = phase_deg;
        EXPECT_LT(reclosing_speed_rpm(scenario), -1000.0) << phase_deg;
        backwards += sim::run_start(scenario).outcome == sim::Outcome::running_backwards ? 1 : 0;
    }
    EXPECT_GE(backwards, 2);
    EXPECT_LT(backwards, 6);
}

TEST(ScrollAfterACutOfASecond, HasComeToRestAndStartsForwards) {
    for (const double phase_deg : facts::points_on_wave_deg) {
        sim::Scenario scenario = cut_of(1.0);
        grid_of(scenario).phase_deg = phase_deg;
        EXPECT_NEAR(reclosing_speed_rpm(scenario), 0.0, 1.0) << phase_deg;
        EXPECT_TRUE(facts::comes_up(scenario)) << phase_deg;
    }
}

TEST(TwoPistonsInTheSameCut, DoNotRunBackwards) {
    for (const double phase_deg : facts::points_on_wave_deg) {
        sim::Scenario scenario = with_pistons(cut_of(0.1));
        grid_of(scenario).phase_deg = phase_deg;
        EXPECT_NE(sim::run_start(scenario).outcome, sim::Outcome::running_backwards) << phase_deg;
    }
}

}  // namespace
