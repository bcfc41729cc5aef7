// When the transformer-type inverter gives up, and what it says then.
#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "plant_models/supplies/transformer_inverter.hpp"
#include "supplies/supply_bench.hpp"
#include "support/machines.hpp"

namespace {

using plant_models::ThermalImage;
using plant_models::TransformerInverter;
using plant_models::TransformerInverterParameters;
using Bench = support::SupplyBench<TransformerInverter>;

TransformerInverterParameters strong_battery() {
    auto parameters = support::table_defaults<TransformerInverterParameters>();
    parameters.voltage_V = 230.0;
    parameters.frequency_Hz = 50.0;
    parameters.rated_power_W = 5000.0;
    parameters.surge_power_W = 14000.0;
    parameters.surge_time_s = 6.0;
    parameters.winding_resistance_percent = 0.0;
    parameters.leakage_reactance_percent = 0.0;
    parameters.battery_resistance_ohm = 0.001;
    parameters.cable_resistance_ohm = 0.001;
    parameters.input_capacitance_uF = 2e5;
    parameters.battery_current_A = 2000.0;
    parameters.battery_surge_current_A = 4000.0;
    return parameters;
}

double time_to_trip_s(const TransformerInverterParameters& parameters, double power_W,
                      double limit_s) {
    Bench bench(parameters);
    bench.step_s = 100e-6;
    const double resistance_ohm = parameters.voltage_V * parameters.voltage_V / power_W;
    bench.connect(resistance_ohm, 1e3 * 60e-6 * resistance_ohm);
    return bench.time_to_trip_s(limit_s);
}

// The coil of the load takes 0.02 % of the current, which is 0.05 % of the time; the square of a
// sine's current swings by up to 1.6 ms.
TEST(TransformerInverterTrip, SurgeLastsExactlyItsTime) {
    EXPECT_NEAR(time_to_trip_s(strong_battery(), 14000.0, 10.0), 6.0, 0.005);
    auto parameters = strong_battery();
    parameters.surge_time_s = 2.5;
    parameters.surge_power_W = 9000.0;
    EXPECT_NEAR(time_to_trip_s(parameters, 9000.0, 10.0), 2.5, 0.005);
}

// T = 6 / ln(2.8^2 / (2.8^2 - 1.1)) = 39.65 s; at twice the rating T ln(4 / 2.9) = 12.75 s.
TEST(TransformerInverterTrip, LessThanTheSurgeLastsLongerByTheInverseTimeLaw) {
    const double square = 2.8 * 2.8;
    const double constant_s = 6.0 / std::log(square / (square - 1.1));
    EXPECT_NEAR(constant_s, 39.65, 0.05);
    EXPECT_NEAR(time_to_trip_s(strong_battery(), 10000.0, 30.0), constant_s * std::log(4.0 / 2.9),
                0.03);
}

TEST(TransformerInverterTrip, RatingIsCarriedForEver) {
    auto parameters = strong_battery();
    parameters.surge_time_s = 0.5;  // time constant 3.3 s
    EXPECT_TRUE(std::isnan(time_to_trip_s(parameters, 5000.0, 60.0)));
    EXPECT_TRUE(std::isnan(time_to_trip_s(parameters, 5150.0, 60.0)));
    EXPECT_FALSE(std::isnan(time_to_trip_s(parameters, 5400.0, 60.0)));
}

TEST(TransformerInverterTrip, ConstantCurrentTripsAtTheSurgeTimeToTheLastDigit) {
    const ThermalImage image(10.0, 30.0, 4.0);
    double heat = 0.0;
    const double step_s = 1e-4;
    double margin = 1.0;
    for (int k = 0; k < 40000; ++k) {
        // Exact over a step: the law is linear in the heat.
        const double end = 9.0;
        const double rate = image.rate_per_s(heat, 30.0) / (end - heat);
        heat = end + (heat - end) * std::exp(-rate * step_s);
        margin = ThermalImage::margin(heat);
    }
    EXPECT_NEAR(margin, 0.0, 1e-9);
    EXPECT_NEAR(ThermalImage::percent_of_trip(heat), 100.0, 1e-7);
    EXPECT_EQ(image.rate_per_s(1.0, 10.0), 0.0);
}

TEST(TransformerInverterTrip, PeakCurrentTripsAtOnceAndOpensTheRelay) {
    auto parameters = strong_battery();
    parameters.peak_current_A = 100.0;
    Bench bench(parameters);
    bench.connect(0.5, 2.0);
    bench.time_to_trip_s(0.1);
    EXPECT_EQ(bench.supply.trip_cause(), "inverter_overload");
    EXPECT_TRUE(bench.supply.disconnected());
    EXPECT_LT(bench.trip_time_s, 0.005);
    EXPECT_EQ(bench.emf_V(), 0.0);
    EXPECT_LT(std::abs(bench.closure()), 1e-7);
}

// The input capacitor keeps the battery's current steady: power / voltage.
TEST(TransformerInverterTrip, BatteryProtectionFollowsItsOwnCurve) {
    auto parameters = strong_battery();
    parameters.input_capacitance_uF = 2e6;
    parameters.battery_resistance_ohm = 0.01;
    parameters.battery_minimum_V = 5.0;
    parameters.battery_current_A = 100.0;
    parameters.battery_surge_current_A = 200.0;
    parameters.battery_surge_time_s = 3.0;
    // 200 A through 11 milliohm leave 49.0 V: 9.8 kW, less than this takes from the output's image.
    Bench bench(parameters);
    bench.step_s = 50e-6;
    bench.connect(230.0 * 230.0 / 9800.0, 0.5);
    const double at_s = bench.time_to_trip_s(10.0);
    EXPECT_EQ(bench.supply.trip_cause(), "battery_protection");
    EXPECT_TRUE(bench.supply.disconnected());
    // The capacitor takes 22 ms to load the battery.
    EXPECT_NEAR(at_s, 3.0, 0.06);
}

// The mean falls from v_0 to v_1 with its time constant: t = T ln((v_0 - v_1) / (v_min - v_1)).
TEST(TransformerInverterTrip, LowBatteryTripsWhenItsMeanHasFallen) {
    auto parameters = strong_battery();
    parameters.battery_resistance_ohm = 0.05;
    parameters.battery_minimum_time_s = 0.5;
    parameters.battery_minimum_V = 45.0;
    parameters.turns_ratio = 20.0;
    const double power_W = 8000.0;
    const double low_V = 0.5 * (51.2 + std::sqrt(51.2 * 51.2 - 4.0 * 0.051 * power_W));
    Bench bench(parameters);
    bench.connect(230.0 * 230.0 / power_W, 0.5);
    const double at_s = bench.time_to_trip_s(5.0);
    EXPECT_EQ(bench.supply.trip_cause(), "battery_voltage_low");
    const double expected_s = 0.5 * std::log((51.2 - low_V) / (45.0 - low_V));
    EXPECT_GT(expected_s, 0.3);
    // R C = 10 ms of the capacitor comes before the mean.
    EXPECT_NEAR(at_s, expected_s + 0.010, 0.02 * expected_s);
}

TEST(TransformerInverterTrip, FirstTripIsTheOneThatIsReportedAndNothingFollows) {
    TransformerInverter inverter(strong_battery());
    auto x = inverter.initial_state();
    inverter.on_guard(TransformerInverter::battery_low, x.data());
    x[TransformerInverter::output_heat] = 50.0;
    std::array<double, TransformerInverter::guard_count> guards{};
    inverter.guards(x.data(), 0.004, {500.0, 0.0, 0.0}, guards.data());
    for (const double guard : guards) {
        EXPECT_GT(guard, 0.0);
    }
    EXPECT_EQ(inverter.trip_cause(), "battery_voltage_low");
}

TEST(TransformerInverterTrip, TouchingTheFlatTopIsNoTrip) {
    TransformerInverter inverter(strong_battery());
    auto x = inverter.initial_state();
    inverter.on_guard(TransformerInverter::flat_top_positive, x.data());
    EXPECT_TRUE(inverter.trip_cause().empty());
    EXPECT_FALSE(inverter.disconnected());
    EXPECT_NE(inverter.emf_V(x.data(), 1e-4), 0.0);
}

TEST(TransformerInverterParametersTest, ZeroMeansDerivedFromTheOthers) {
    auto parameters = support::table_defaults<TransformerInverterParameters>();
    parameters.voltage_V = 240.0;
    parameters.frequency_Hz = 60.0;
    parameters.rated_power_W = 6000.0;
    const auto full = parameters.completed();
    EXPECT_DOUBLE_EQ(full.surge_power_W, 18000.0);
    EXPECT_NEAR(full.peak_current_A, 1.5 * 75.0 * std::sqrt(2.0), 1e-9);
    EXPECT_NEAR(full.turns_ratio * 0.85 * 51.2, 240.0 * std::sqrt(2.0), 1e-9);
    EXPECT_DOUBLE_EQ(full.idle_draw_W, 30.0);
    // 4 % of 51.2 V at 117.2 A.
    EXPECT_NEAR(full.direct_resistance_ohm() * 6000.0 / 51.2, 0.04 * 51.2, 1e-9);
    EXPECT_NEAR(0.5e-6 * full.input_capacitance_uF * 51.2 * 51.2, 39.0, 1e-9);
    EXPECT_NEAR(full.battery_minimum_V, 40.96, 1e-9);
    EXPECT_NEAR(full.battery_current_A, 1.5 * 6000.0 / 51.2, 1e-9);
    EXPECT_NEAR(full.battery_surge_current_A, 4.0 * 6000.0 / 51.2, 1e-9);
    EXPECT_TRUE(parameters.inconsistency().empty());
    const auto again = full.completed();
    EXPECT_EQ(again.turns_ratio, full.turns_ratio);
    EXPECT_EQ(again.idle_draw_W, full.idle_draw_W);
}

TEST(TransformerInverterParametersTest, NonsenseBetweenFieldsIsRefusedByTheNameOfAField) {
    const auto fault = [](double TransformerInverterParameters::*field, double value) {
        auto parameters = strong_battery();
        parameters.*field = value;
        return parameters.inconsistency();
    };
    using T = TransformerInverterParameters;
    EXPECT_TRUE(strong_battery().inconsistency().empty());
    EXPECT_EQ(fault(&T::surge_power_W, 5400.0).substr(0, 13), "surge_power_W");
    EXPECT_EQ(fault(&T::peak_current_A, 30.0).substr(0, 14), "peak_current_A");
    EXPECT_EQ(fault(&T::turns_ratio, 6.0).substr(0, 11), "turns_ratio");
    EXPECT_EQ(fault(&T::battery_surge_current_A, 2100.0).substr(0, 23), "battery_surge_current_A");
    EXPECT_EQ(fault(&T::battery_minimum_V, 51.2).substr(0, 17), "battery_minimum_V");
    EXPECT_EQ(fault(&T::input_capacitance_uF, 4e4).substr(0, 20), "input_capacitance_uF");
}

}  // namespace
