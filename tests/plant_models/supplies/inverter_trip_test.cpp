// The DC side of the inverter and its two trips.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "supplies/inverter_bench.hpp"
#include "support/machines.hpp"

namespace {

using plant_models::Inverter;
using plant_models::InverterParameters;
using support::InverterBench;

const double rated_A = 60.0 / (1.5 * std::sqrt(2.0));

/// A resistive load (with just enough inductance to be one) that takes this RMS current at 230 V.
void load_with(InverterBench& bench, double current_A) {
    const double resistance_ohm = 230.0 / current_A;
    bench.connect(resistance_ohm, 1e3 * resistance_ohm * 50e-6);
}

InverterParameters quick_to_trip() {
    InverterParameters parameters = support::small_inverter();
    parameters.overload_time_s = 0.4;
    parameters.refill_power_W = 20000.0;
    return parameters;
}

double time_to_trip_s(InverterBench& bench, double longest_s) {
    while (!bench.tripped() && bench.time_s < longest_s) {
        bench.run_for(InverterBench::step_s);
    }
    return bench.time_s;
}

// The 20 ms mean passes the rating after 20 ms x ln(1 / (1 - 1 / overload^2)), give or take the
// ripple of twice the line frequency, which is 7 % of the mean square: 20 ms for 1.3 x.
TEST(InverterTrip, OverloadTripsAfterTheOverloadTimePlusTheDelayOfTheMean) {
    for (const double overload : {1.3, 1.35}) {
        InverterBench bench(quick_to_trip());
        load_with(bench, overload * rated_A);
        const double delay_s = 0.020 * std::log(1.0 / (1.0 - 1.0 / (overload * overload)));
        const double tripped_s = time_to_trip_s(bench, 2.0);
        EXPECT_EQ(bench.inverter.trip_cause(), "inverter_overload");
        EXPECT_NEAR(tripped_s, 0.4 + delay_s, 0.006) << overload;
    }
}

TEST(InverterTrip, NineTenthsOfTheRatingIsCarriedForEver) {
    InverterBench bench(quick_to_trip());
    load_with(bench, 0.9 * rated_A);
    bench.run_for(2.0);
    EXPECT_FALSE(bench.tripped());
    EXPECT_EQ(bench.x[Inverter::timer], 0.0);
}

TEST(InverterTrip, TimerFallsAsFastAsItRoseAndStopsAtZero) {
    InverterBench bench(quick_to_trip());
    double highest_s = 0.0;
    for (int overload = 0; overload < 3; ++overload) {
        load_with(bench, 1.3 * rated_A);
        bench.run_for(0.3, [&] { highest_s = std::max(highest_s, bench.x[Inverter::timer]); });
        const double risen_s = bench.x[Inverter::timer];
        load_with(bench, 0.2 * rated_A);
        // It goes on rising until the mean has fallen below the rating.
        bench.run_for(0.05);
        const double turned_s = bench.x[Inverter::timer];
        bench.run_for(0.1);
        EXPECT_NEAR(bench.x[Inverter::timer], turned_s - 0.1, 1e-9);
        EXPECT_GT(risen_s, 0.25);
        bench.run_for(0.4, [&] { ASSERT_GT(bench.x[Inverter::timer], -2e-5); });
        EXPECT_EQ(bench.x[Inverter::timer], 0.0);
    }
    EXPECT_LT(highest_s, 0.4);
    EXPECT_FALSE(bench.tripped());
}

TEST(InverterTrip, BusFallsToItsMinimumWhenTheLoadTakesMoreThanTheRefill) {
    InverterParameters parameters = support::small_inverter();
    parameters.refill_power_W = 500.0;
    InverterBench bench(parameters);
    load_with(bench, 15.0);  // 3450 W
    const double from_J = bench.bus_energy_J();
    const double tripped_s = time_to_trip_s(bench, 1.0);
    EXPECT_EQ(bench.inverter.trip_cause(), "dc_bus_low");
    EXPECT_NEAR(bench.x[Inverter::bus_voltage], 1.30 * 230.0, 1.0);
    const double surplus_W = 3450.0 - 500.0;
    // Within half a cycle: the load pulsates at twice the line frequency.
    EXPECT_NEAR(tripped_s, (from_J - bench.bus_energy_J()) / surplus_W, 1.0 / 120.0);
}

TEST(InverterTrip, LoadWithinTheRefillNeverEmptiesTheBus) {
    InverterParameters parameters = support::small_inverter();
    parameters.refill_power_W = 4000.0;
    InverterBench bench(parameters);
    load_with(bench, 15.0);
    double lowest_V = 1e9;
    bench.run_for(2.0, [&] { lowest_V = std::min(lowest_V, bench.x[Inverter::bus_voltage]); });
    EXPECT_FALSE(bench.tripped());
    EXPECT_GT(lowest_V, 0.9 * 1.75 * 230.0);
}

TEST(InverterTrip, RefillIsLimitedAndFullFromFivePerCentSag) {
    InverterParameters parameters = support::small_inverter();
    parameters.refill_power_W = 1000.0;
    const Inverter inverter(parameters);
    const double full_V = 1.75 * 230.0;
    const auto refill_W = [&](double bus_V) {
        auto x = inverter.initial_state();
        x[Inverter::bus_voltage] = bus_V;
        std::array<double, Inverter::state_count> rate{};
        return inverter.derivatives(x.data(), rate.data(), 0.0, {}).source_W;
    };
    EXPECT_EQ(refill_W(full_V), 0.0);
    EXPECT_EQ(refill_W(1.1 * full_V), 0.0);
    EXPECT_NEAR(refill_W(0.975 * full_V), 500.0, 1e-9);
    EXPECT_NEAR(refill_W(0.95 * full_V), 1000.0, 1e-9);
    EXPECT_EQ(refill_W(0.5 * full_V), 1000.0);
}

// Either trip: nothing leaves the bus any more but what the filter inductor still carried, and the
// output dies down on the load.
TEST(InverterTrip, TrippedInverterStaysOff) {
    for (const Inverter::GuardIndex cause : {Inverter::timer_full, Inverter::bus_too_low}) {
        InverterBench bench(support::small_inverter());
        load_with(bench, rated_A);
        bench.run_for(0.1 + 1.0 / 240.0);
        bench.inverter.on_guard(cause, bench.x.data());
        ASSERT_TRUE(bench.tripped());
        const std::string_view reported = bench.inverter.trip_cause();
        const double before_J = bench.bus_energy_J() - bench.x[InverterBench::source_energy];
        // The inductor's current goes to zero within a few time constants of the current loop.
        bench.run_for(0.005);
        const double after_J = bench.bus_energy_J() - bench.x[InverterBench::source_energy];
        EXPECT_NEAR(after_J, before_J, 2.0);
        bench.run_for(1.0, [&] {
            ASSERT_LT(std::abs(bench.x[Inverter::inductor_current]), 1e-3);
            ASSERT_LT(std::abs(bench.x[Inverter::output_voltage]), 5.0);
        });
        EXPECT_NEAR(bench.bus_energy_J() - bench.x[InverterBench::source_energy], after_J, 1e-3);
        EXPECT_EQ(bench.inverter.trip_cause(), reported);
    }
}

TEST(InverterTrip, TimerAtRestAtZeroHasNoEventAhead) {
    const Inverter inverter(support::small_inverter());
    const auto x = inverter.initial_state();
    std::array<double, Inverter::guard_count> guards{};
    inverter.guards(x.data(), 0.0, {}, guards.data());
    EXPECT_EQ(x[Inverter::timer], 0.0);
    EXPECT_GT(guards[Inverter::timer_empty], 0.0);
}

TEST(InverterTrip, FirstTripIsTheOneThatIsReported) {
    InverterBench bench(quick_to_trip());
    bench.inverter.on_guard(Inverter::timer_full, bench.x.data());
    bench.x[Inverter::bus_voltage] = 100.0;
    bench.x[Inverter::timer] = 99.0;
    std::array<double, Inverter::guard_count> guards{};
    bench.inverter.guards(bench.x.data(), 0.0, {}, guards.data());
    EXPECT_GT(guards[Inverter::bus_too_low], 0.0);
    EXPECT_GT(guards[Inverter::timer_full], 0.0);
}

TEST(InverterParametersTest, ZeroMeansDerivedFromTheOthers) {
    const InverterParameters full = support::small_inverter().completed();
    EXPECT_DOUBLE_EQ(full.bus_voltage_V, 402.5);
    EXPECT_DOUBLE_EQ(full.bus_minimum_V, 299.0);
    EXPECT_DOUBLE_EQ(full.rated_current_A, rated_A);
    EXPECT_DOUBLE_EQ(full.refill_power_W, 230.0 * rated_A);
    // 40 J per kVA.
    EXPECT_NEAR(0.5e-6 * full.bus_capacitance_uF * 402.5 * 402.5, 0.040 * 230.0 * rated_A, 1e-9);
    InverterParameters given = support::small_inverter();
    given.bus_voltage_V = 380.0;
    given.bus_minimum_V = 310.0;
    given.rated_current_A = 25.0;
    given.refill_power_W = 1234.0;
    given.bus_capacitance_uF = 777.0;
    given = given.completed();
    EXPECT_EQ(given.bus_voltage_V, 380.0);
    EXPECT_EQ(given.bus_minimum_V, 310.0);
    EXPECT_EQ(given.rated_current_A, 25.0);
    EXPECT_EQ(given.refill_power_W, 1234.0);
    EXPECT_EQ(given.bus_capacitance_uF, 777.0);
}

TEST(InverterParametersTest, BusHasToReachTheCrestAndToStartAboveItsTrip) {
    InverterParameters parameters = support::small_inverter();
    EXPECT_TRUE(parameters.inconsistency().empty());
    parameters.bus_voltage_V = 324.0;  // crest: 325.3 V
    EXPECT_NE(parameters.inconsistency().find("bus_voltage_V"), std::string_view::npos);
    parameters.bus_voltage_V = 326.0;
    EXPECT_TRUE(parameters.inconsistency().empty());
    parameters.bus_minimum_V = 326.0;
    EXPECT_NE(parameters.inconsistency().find("bus_minimum_V"), std::string_view::npos);
}

}  // namespace
