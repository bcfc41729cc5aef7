// When the generator gives up, and what it says then.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "supplies/generator_bench.hpp"

namespace {

using plant_models::Generator;
using plant_models::GeneratorParameters;
using support::connect_resistance;
using support::GeneratorBench;
using support::seven_kilovolt_amperes;

/// A regulator that holds the voltage whatever the speed makes the engine pay for it.
GeneratorParameters weak_engine() {
    GeneratorParameters parameters = seven_kilovolt_amperes();
    parameters.engine_power_W = 4000.0;
    parameters.underfrequency_knee_percent = 60.0;
    return parameters;
}

TEST(GeneratorTrip, EngineStallsUnderALoadThatItCannotCarry) {
    GeneratorBench bench(weak_engine());
    bench.run_for(0.2);
    connect_resistance(bench, 240.0 * 240.0 / 6500.0);
    const double at_s = bench.time_to_trip_s(20.0);
    ASSERT_EQ(bench.supply.trip_cause(), "generator_stalled");
    EXPECT_GT(at_s, 0.5);
    EXPECT_NEAR(bench.x[Generator::speed], 0.55, 1e-9);
    EXPECT_FALSE(bench.supply.disconnected());
    const double source_J = bench.x[GeneratorBench::source_energy];
    bench.run_for(3.0);
    EXPECT_EQ(bench.x[GeneratorBench::source_energy], source_J);
    EXPECT_LT(bench.channels()[0], 6.0);
    EXPECT_EQ(bench.channels()[2], 0.0);
    EXPECT_LT(bench.rms_of_next(0.2), 12.0);
    EXPECT_LT(std::abs(bench.closure()), 1e-7);
}

TEST(GeneratorTrip, EngineCarriesWhatItsPowerAllows) {
    GeneratorBench bench(weak_engine());
    bench.step_s = 100e-6;
    connect_resistance(bench, 240.0 * 240.0 / 3300.0);
    EXPECT_TRUE(std::isnan(bench.time_to_trip_s(20.0)));
    EXPECT_GT(bench.channels()[0], 58.0);
}

// The image in the breaker, integrated here from the current that was seen.
TEST(GeneratorTrip, BreakerOpensByTheInverseTimeLaw) {
    GeneratorParameters parameters = seven_kilovolt_amperes();
    parameters.breaker_current_A = 10.0;
    parameters.breaker_double_time_s = 4.0;
    GeneratorBench bench(parameters);
    connect_resistance(bench, 240.0 / 24.0);
    const double constant_s = 4.0 / std::log(4.0 / 2.9);
    double heat = 0.0;
    double expected_s = 0.0;
    while (bench.supply.trip_cause().empty() && bench.time_s < 10.0) {
        const double current = bench.x[GeneratorBench::load_current];
        bench.run_for(bench.step_s);
        heat += bench.step_s / constant_s * (0.01 * current * current - heat);
        expected_s = heat < 1.1 ? bench.time_s : expected_s;
    }
    EXPECT_EQ(bench.supply.trip_cause(), "generator_breaker");
    EXPECT_TRUE(bench.supply.disconnected());
    EXPECT_NEAR(bench.trip_time_s, expected_s, 0.002);
    EXPECT_GT(bench.trip_time_s, 2.0);
    EXPECT_LT(bench.trip_time_s, 4.0);
    EXPECT_LT(std::abs(bench.closure()), 1e-7);
}

TEST(GeneratorTrip, BreakerCarriesItsOwnCurrentForEver) {
    GeneratorParameters parameters = seven_kilovolt_amperes();
    parameters.breaker_current_A = 20.0;
    parameters.breaker_double_time_s = 0.5;
    GeneratorBench bench(parameters);
    bench.step_s = 100e-6;
    connect_resistance(bench, 240.0 / 19.8);
    EXPECT_TRUE(std::isnan(bench.time_to_trip_s(20.0)));
}

TEST(GeneratorTrip, InstantaneousPartOpensAtOnceAndTheSetRunsOn) {
    GeneratorParameters parameters = seven_kilovolt_amperes();
    parameters.breaker_instant_current_A = 150.0;
    GeneratorBench bench(parameters);
    bench.connect(0.3, 0.5);
    bench.time_to_trip_s(0.1);
    EXPECT_EQ(bench.supply.trip_cause(), "generator_breaker");
    EXPECT_TRUE(bench.supply.disconnected());
    EXPECT_LT(bench.trip_time_s, 0.02);
    bench.run_for(2.0);
    EXPECT_NEAR(bench.channels()[0], 62.8, 0.2);
    EXPECT_NEAR(bench.supply.terminal_voltage_V(bench.x.data()), 240.0, 2.4);
}

TEST(GeneratorTrip, FirstTripIsTheOneThatIsReported) {
    Generator generator(seven_kilovolt_amperes());
    auto x = generator.initial_state();
    generator.on_guard(Generator::breaker_warm, x.data());
    x[Generator::speed] = 0.3;
    x[Generator::breaker_heat] = 9.0;
    std::array<double, Generator::guard_count> guards{};
    generator.guards(x.data(), 0.0, {900.0, 0.0, 0.0}, guards.data());
    for (std::size_t k = 0; k < Generator::guard_count; ++k) {
        if (!Generator::guard_is_kink(k)) {
            EXPECT_GT(guards[k], 0.0) << k;
        }
    }
}

TEST(GeneratorTrip, EnergyClosesThroughOverloadAndStall) {
    GeneratorBench bench(weak_engine());
    bench.connect(3.0, 12.0, 2e-4);
    bench.run_for(6.0);
    EXPECT_GT(bench.events, 2);
    EXPECT_LT(std::abs(bench.closure()), 1e-6);
}

TEST(GeneratorParametersTest, ZeroMeansDerivedFromTheOthers) {
    const GeneratorParameters full = seven_kilovolt_amperes().completed();
    EXPECT_DOUBLE_EQ(full.engine_power_W, 7700.0);
    EXPECT_NEAR(full.breaker_current_A, 29.17, 0.01);
    EXPECT_NEAR(full.breaker_instant_current_A, 291.7, 0.1);
    EXPECT_EQ(weak_engine().completed().engine_power_W, 4000.0);
}

TEST(GeneratorParametersTest, NonsenseBetweenFieldsIsRefusedByTheNameOfAField) {
    using G = GeneratorParameters;
    const auto fault = [](double G::*field, double value) {
        G parameters = seven_kilovolt_amperes();
        parameters.*field = value;
        return parameters.inconsistency();
    };
    EXPECT_TRUE(seven_kilovolt_amperes().inconsistency().empty());
    EXPECT_EQ(fault(&G::engine_power_W, 800.0).substr(0, 14), "engine_power_W");
    EXPECT_EQ(fault(&G::synchronous_reactance_percent, 15.0).substr(0, 29),
              "synchronous_reactance_percent");
    EXPECT_EQ(fault(&G::breaker_instant_current_A, 40.0).substr(0, 25),
              "breaker_instant_current_A");
    EXPECT_EQ(fault(&G::underfrequency_knee_percent, 50.0).substr(0, 19), "stall_speed_percent");
}

}  // namespace
