// Low voltage at the unit, from the supply or from a thin cable (common practice: torque goes with
// the square of the voltage).
#include <gtest/gtest.h>

#include <complex>

#include "facts/facts_bench.hpp"
#include "plant_models/motor/steady_state.hpp"

namespace {

using facts::bakery_after;

sim::Scenario at_share(sim::Scenario scenario, double share) {
    facts::grid_of(scenario).voltage_V *= share;
    return scenario;
}

TEST(LowLine, OfNineTenthsLeavesEightyOnePercentOfTheTorqueAtAnySlip) {
    const plant_models::MotorParameters motor = bakery_after(0.0).motor;
    for (const double slip : {1.0, 0.5, 0.2, 0.05}) {
        const double full_Nm =
            steady_state(motor, {230.0, 50.0, 0.0, 0.0}, run_connection(motor), slip).torque_Nm;
        const double low_Nm =
            steady_state(motor, {207.0, 50.0, 0.0, 0.0}, run_connection(motor), slip).torque_Nm;
        EXPECT_NEAR(low_Nm / full_Nm, 0.81, 1e-9) << slip;
    }
}

TEST(LowLine, OfNineTenthsProlongsTheRunUp) {
    const double full_s = facts::mean_run_up_s(bakery_after(300.0));
    const double low_s = facts::mean_run_up_s(at_share(bakery_after(300.0), 0.9));
    // Less torque, the same load: the time grows more than the torque falls.
    EXPECT_GT(low_s / full_s, 1.0 / 0.9);
}

TEST(LowLine, OfNineTenthsStopsAMarginalStart) {
    EXPECT_TRUE(facts::comes_up(bakery_after(115.0)));
    EXPECT_FALSE(facts::comes_up(at_share(bakery_after(115.0), 0.9)));
}

/// 60 m of this size between the mains and the unit.
sim::Scenario behind_cable(sim::Scenario scenario, const char* size) {
    scenario.wiring.branch_size = size;
    scenario.wiring.branch_length_m = 60.0;
    return scenario;
}

TEST(LongCable, LowersTheUnitsVoltageTheMoreTheThinnerItIs) {
    double thinner_V = 0.0;
    for (const char* size : {"1.5 mm2", "2.5 mm2", "4 mm2", "6 mm2", "10 mm2"}) {
        const sim::StartResult result = sim::run_start(behind_cable(bakery_after(300.0), size));
        const double lowest_V = result.figures.line_voltage_one_cycle_rms_min_V.value();
        EXPECT_GT(lowest_V, thinner_V) << size;
        thinner_V = lowest_V;
    }
    const sim::StartResult none = sim::run_start(bakery_after(300.0));
    EXPECT_GT(none.figures.line_voltage_one_cycle_rms_min_V.value(), thinner_V);
}

TEST(LongCable, ProlongsTheRunUpTheMoreTheThinnerItIs) {
    // In the mean over the points on the wave: closed at a zero, a little resistance helps, for it
    // damps the direct current that brakes (0.166 s instead of 0.175 s).
    const double none_s = facts::mean_run_up_s(bakery_after(300.0));
    const double thick_s = facts::mean_run_up_s(behind_cable(bakery_after(300.0), "6 mm2"));
    const double thin_s = facts::mean_run_up_s(behind_cable(bakery_after(300.0), "1.5 mm2"));
    EXPECT_GT(thick_s, none_s);
    EXPECT_GT(thin_s, 1.1 * thick_s);
}

TEST(LongCable, ThatIsThinStopsAMarginalStartThatAThickOneAllows) {
    EXPECT_TRUE(facts::comes_up(behind_cable(bakery_after(112.0), "6 mm2")));
    EXPECT_FALSE(facts::comes_up(behind_cable(bakery_after(112.0), "1.5 mm2")));
}

}  // namespace
