// Cold oil is thick (common practice): what a start through it needs.
#include <gtest/gtest.h>

#include "facts/facts_bench.hpp"

namespace {

sim::Scenario cold_morning() {
    return sim_test::bundled("boat_shed_cold_morning");
}

TEST(ColdOil, StopsAStartThatWarmOilAllows) {
    sim::Scenario scenario = cold_morning();
    const sim::StartResult cold = sim::run_start(scenario);
    EXPECT_EQ(cold.outcome, sim::Outcome::stalled);
    EXPECT_EQ(cold.cause, "rotor_stayed_slow");
    scenario.conditions.oil_warming_K = 30.0;
    EXPECT_TRUE(facts::comes_up(scenario));
}

TEST(ColdOil, IsOvercomeByTheLimitersStartCapacitor) {
    EXPECT_TRUE(facts::comes_up(facts::with_default_limiter(cold_morning())));
}

TEST(ColdOil, MakesTheRunUpLongerTheColderItIs) {
    double warmer_s = 0.0;
    for (const double warming_K : {40.0, 30.0, 20.0, 10.0}) {
        sim::Scenario scenario = cold_morning();
        scenario.conditions.oil_warming_K = warming_K;
        const double run_up_s = facts::run_up_s(scenario);
        EXPECT_GT(run_up_s, warmer_s) << warming_K;
        warmer_s = run_up_s;
    }
}

}  // namespace
