// A run capacitor that has lost capacitance: the fault that a service call looks for first (common
// practice).
#include <gtest/gtest.h>

#include "facts/facts_bench.hpp"
#include "plant_models/motor/steady_state.hpp"

namespace {

using facts::bakery_after;

sim::Scenario weakened(sim::Scenario scenario, double share) {
    scenario.motor.run_capacitor_uF *= share;
    return scenario;
}

double starting_torque_Nm(const sim::Scenario& scenario) {
    return plant_models::locked_rotor(scenario.motor, {230.0, 50.0, 0.0, 0.0},
                                      run_connection(scenario.motor))
        .torque_Nm;
}

TEST(WeakRunCapacitor, TakesStartingTorqueAndProlongsTheRunUp) {
    double torque_Nm = 1e9;
    double run_up_s = 0.0;
    for (const double share : {1.0, 0.9, 0.8, 0.7, 0.6}) {
        const sim::Scenario scenario = weakened(bakery_after(300.0), share);
        const double weak_Nm = starting_torque_Nm(scenario);
        const double weak_s = facts::run_up_s(scenario);
        EXPECT_LT(weak_Nm, torque_Nm) << share;
        EXPECT_GT(weak_s, run_up_s) << share;
        torque_Nm = weak_Nm;
        run_up_s = weak_s;
    }
}

TEST(WeakRunCapacitor, StopsAMarginalStartThatAHealthyOneManages) {
    // A fifth of the equalising time is missing.
    EXPECT_TRUE(facts::comes_up(bakery_after(120.0)));
    EXPECT_FALSE(facts::comes_up(weakened(bakery_after(120.0), 0.7)));
}

}  // namespace
