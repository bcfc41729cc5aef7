// How hot the windings are where the plant does not model it.
#include "sim/metrics/winding_heat.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "bench/cases.hpp"
#include "plant_models/parameter_defaults.hpp"
#include "sim/bench/start_run.hpp"

namespace {

constexpr double copper_J_per_kg_K = 385.0;
constexpr double coefficient_per_K = 0.00393;

double resistance_factor(double temperature_C) {
    return (1.0 + coefficient_per_K * (temperature_C - 20.0)) /
           (1.0 + coefficient_per_K * (25.0 - 20.0));
}

TEST(WindingHeat, RisesByTheCopperLossOverTheHeatOfTheCopper) {
    const sim::Scenario scenario = sim_test::bundled("reference_limited");
    sim::WindingHeat heat = sim::winding_heat(scenario);
    const double before_C = heat.hottest_C();
    const auto network = plant_models::table_defaults<plant_models::HeatParameters>();
    const double mass_kg = network.completed(scenario.motor).main_winding_mass_kg;
    plant_models::PlantOutputs plant;
    plant.main_current_A = 80.0;
    for (int k = 0; k < 10000; ++k) {
        heat.observe(plant);
    }
    const double middle_C = 0.5 * (before_C + heat.hottest_C());
    const double rise_K =
        resistance_factor(middle_C) * 0.55 * 80.0 * 80.0 * 1.0 / (copper_J_per_kg_K * mass_kg);
    // What flows into the shell within a second of 150 is left out on this side.
    EXPECT_NEAR(heat.hottest_C() - before_C, rise_K, 0.01 * rise_K);
    EXPECT_GT(rise_K, 3.0);
}

TEST(WindingHeat, CountsTheOtherWindingToo) {
    sim::WindingHeat heat = sim::winding_heat(sim_test::bundled("reference_limited"));
    const double before_C = heat.hottest_C();
    plant_models::PlantOutputs plant;
    plant.aux_current_A = 30.0;
    for (int k = 0; k < 10000; ++k) {
        heat.observe(plant);
    }
    EXPECT_GT(heat.hottest_C(), before_C + 1.0);
}

TEST(WindingHeat, IsCloseToTheModelledTemperatureOverAWholeStart) {
    // The same start with the network in the plant. The two part by what the warmer resistances
    // make of the currents there.
    sim::Scenario alone = sim_test::bundled("reference_limited");
    sim::Scenario modelled = alone;
    modelled.unit.heat = plant_models::table_defaults<plant_models::HeatParameters>();
    const double on_the_side_C = sim::run_start(alone).hottest_winding_C;
    const double in_the_plant_C = sim::run_start(modelled).hottest_winding_C;
    EXPECT_NEAR(on_the_side_C, in_the_plant_C, 1.0);
    sim::WindingHeat before = sim::winding_heat(alone);
    EXPECT_GT(in_the_plant_C, before.hottest_C() + 0.5);
}

TEST(WindingHeat, CoolsInARest) {
    sim::WindingHeat heat = sim::winding_heat(sim_test::bundled("reference_limited"));
    const double before_C = heat.hottest_C();
    heat.rest(600.0);
    EXPECT_LT(heat.hottest_C(), before_C - 1.0);
    heat.rest(1e5);
    EXPECT_NEAR(heat.hottest_C(), 25.0, 0.1);
}

TEST(WindingHeat, ALockedRotorOnTheFullLineBreaksItsMonitor) {
    sim::Scenario scenario = sim_test::bundled("reference_direct");
    sim::Fault seized;
    seized.what = sim::RotorSeized{};
    scenario.faults.push_back(seized);
    scenario.run.duration_s = 40.0;
    const sim::StartResult result = sim::run_start(scenario);
    bool broken = false;
    for (const sim::NamedViolation& one : result.monitors) {
        broken = broken || one.monitor == "winding_too_hot";
    }
    EXPECT_TRUE(broken);
    EXPECT_GT(result.hottest_winding_C, 160.0);
}

}  // namespace
