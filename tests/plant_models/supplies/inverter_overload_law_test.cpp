// The inverse-time overload law: "so many volt-amperes for so many seconds".
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "plant_models/supplies/inverter/overload_timer.hpp"
#include "supplies/inverter_bench.hpp"
#include "support/machines.hpp"

namespace {

using plant_models::Inverter;
using plant_models::InverterParameters;
using plant_models::OverloadTimer;
using support::InverterBench;

const double rated_A = 60.0 / (1.5 * std::sqrt(2.0));
constexpr double surge_A = 38.0;

InverterParameters surge_rated() {
    InverterParameters parameters = support::small_inverter();
    parameters.overload_law = "inverse_time";
    parameters.surge_power_W = 230.0 * surge_A;
    parameters.surge_time_s = 0.8;
    parameters.refill_power_W = 20000.0;
    return parameters;
}

void load_with(InverterBench& bench, double current_A) {
    const double resistance_ohm = 230.0 / current_A;
    bench.connect(resistance_ohm, 1e3 * resistance_ohm * 50e-6);
}

double time_to_trip_s(InverterBench& bench, double longest_s) {
    const double begin_s = bench.time_s;
    while (!bench.tripped() && bench.time_s < begin_s + longest_s) {
        bench.run_for(InverterBench::step_s);
    }
    return bench.time_s - begin_s;
}

TEST(InverterOverloadLaw, SurgeRatingLastsItsTimeExactlyAndTheContinuousRatingForEver) {
    const OverloadTimer timer(surge_rated().completed());
    EXPECT_DOUBLE_EQ(timer.rate(0.0, surge_A * surge_A), 1.0);
    EXPECT_DOUBLE_EQ(timer.rate(0.4, surge_A * surge_A), 1.0);
    EXPECT_EQ(timer.rate(0.0, rated_A * rated_A), 0.0);
    EXPECT_EQ(timer.rate(0.5, rated_A * rated_A), 0.0);
    EXPECT_GT(timer.left_s(0.8 - 1e-12), 0.0);
    EXPECT_LE(timer.left_s(0.8), 0.0);
}

TEST(InverterOverloadLaw, TimeIsInverseToTheExcessHeat) {
    const OverloadTimer timer(surge_rated().completed());
    const double excess_A2 = surge_A * surge_A - rated_A * rated_A;
    EXPECT_NEAR(timer.rate(0.0, rated_A * rated_A + 2.0 * excess_A2), 2.0, 1e-12);
    EXPECT_NEAR(timer.rate(0.0, rated_A * rated_A + 0.25 * excess_A2), 0.25, 1e-12);
    EXPECT_NEAR(timer.rate(0.1, rated_A * rated_A - 0.5 * excess_A2), -0.5, 1e-12);
    EXPECT_EQ(timer.rate(0.0, 0.5 * rated_A * rated_A), 0.0);
}

// After a step up from the continuous rating the mean is behind by its 20 ms; what remains is the
// ripple of twice the line frequency and the output capacitor.
TEST(InverterOverloadLaw, StepToTheSurgeRatingTripsAfterItsTimePlusTheDelayOfTheMean) {
    for (const double times : {1.0, 1.08}) {
        InverterBench bench(surge_rated());
        load_with(bench, rated_A);
        bench.run_for(0.3);
        load_with(bench, times * surge_A);
        const double excess = (times * times * surge_A * surge_A - rated_A * rated_A) /
                              (surge_A * surge_A - rated_A * rated_A);
        EXPECT_NEAR(time_to_trip_s(bench, 3.0), 0.8 / excess + 0.020, 0.004) << times;
        EXPECT_EQ(bench.inverter.trip_cause(), "inverter_overload");
    }
}

TEST(InverterOverloadLaw, ContinuousRatingIsCarriedForEver) {
    for (const double times : {0.5, 0.99, 0.999}) {
        InverterBench bench(surge_rated());
        load_with(bench, times * rated_A);
        double highest_s = 0.0;
        bench.run_for(3.0, [&] { highest_s = std::max(highest_s, bench.x[Inverter::timer]); });
        EXPECT_FALSE(bench.tripped());
        EXPECT_LT(highest_s, 0.001) << times;
    }
}

TEST(InverterOverloadLaw, TimerRecoversBetweenSurgesAndStopsAtZero) {
    InverterBench bench(surge_rated());
    for (int surge = 0; surge < 3; ++surge) {
        load_with(bench, surge_A);
        bench.run_for(0.6);
        EXPECT_GT(bench.x[Inverter::timer], 0.5);
        load_with(bench, 0.1 * rated_A);
        bench.run_for(1.2);
        EXPECT_EQ(bench.x[Inverter::timer], 0.0);
    }
    EXPECT_FALSE(bench.tripped());
}

TEST(InverterOverloadLaw, SurgeRatingNotGivenIsTheLargestSineForTheOverloadTime) {
    InverterParameters parameters = support::small_inverter();
    parameters.overload_law = "inverse_time";
    parameters.overload_time_s = 7.0;
    EXPECT_DOUBLE_EQ(parameters.completed().surge_power_W, 230.0 * 60.0 / std::sqrt(2.0));
    EXPECT_EQ(parameters.completed().surge_time_s, 7.0);
    const OverloadTimer timer(parameters.completed());
    EXPECT_NEAR(timer.rate(0.0, 1800.0), 1.0, 1e-12);
    EXPECT_NEAR(timer.left_s(6.0), 1.0, 1e-12);
}

}  // namespace
