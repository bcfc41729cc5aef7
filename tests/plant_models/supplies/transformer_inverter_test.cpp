// What the transformer-type inverter puts out, and what that costs its battery.
#include "plant_models/supplies/transformer_inverter.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "supplies/supply_bench.hpp"
#include "support/machines.hpp"
#include "support/random_numbers.hpp"

namespace {

using plant_models::TransformerInverter;
using plant_models::TransformerInverterParameters;
using Bench = support::SupplyBench<TransformerInverter>;

constexpr double pi = 3.14159265358979323846;

TransformerInverterParameters six_kilowatts() {
    auto parameters = support::table_defaults<TransformerInverterParameters>();
    parameters.voltage_V = 240.0;
    parameters.frequency_Hz = 60.0;
    parameters.rated_power_W = 6000.0;
    return parameters;
}

/// No impedance on the AC side and an input that holds still, so that hand calculations apply.
TransformerInverterParameters still_input() {
    auto parameters = six_kilowatts();
    parameters.winding_resistance_percent = 0.0;
    parameters.leakage_reactance_percent = 0.0;
    parameters.input_capacitance_uF = 2e6;
    parameters.idle_draw_W = 1e-6;
    parameters.battery_minimum_V = 1.0;
    parameters.peak_current_A = 5000.0;
    return parameters;
}

/// With a coil that turns the current by 1 degree only, for the sake of the integration.
void connect_resistance(Bench& bench, double resistance_ohm) {
    bench.connect(resistance_ohm, 1e3 * 60e-6 * resistance_ohm);
}

TEST(TransformerInverter, OpenCircuitVoltageIsItsRatingAndItsBatteryFeedsTheIdleDraw) {
    auto parameters = six_kilowatts();
    parameters.idle_draw_W = 45.0;
    parameters.phase_deg = 30.0;
    Bench bench(parameters);
    EXPECT_NEAR(bench.emf_V(), 0.5 * 240.0 * std::sqrt(2.0), 1e-9);
    EXPECT_NEAR(bench.rms_of_next(1.0 / 60.0), 240.0, 1e-3);
    bench.run_for(0.5);
    EXPECT_NEAR(bench.x[Bench::source_energy] / bench.time_s, 45.0, 0.1);
    EXPECT_LT(std::abs(bench.closure()), 1e-9);
}

TEST(TransformerInverter, SeriesImpedanceIsItsShareOfTheBase) {
    const TransformerInverter inverter(six_kilowatts());
    EXPECT_NEAR(inverter.series_resistance_ohm(), 0.02 * 9.6, 1e-12);
    EXPECT_NEAR(inverter.series_inductance_H() * 2.0 * pi * 60.0, 0.04 * 9.6, 1e-12);
}

// v = (V_b + sqrt(V_b^2 - 4 R P)) / 2, with P the mean power at a resistance.
TEST(TransformerInverter, InputSagsAsTheBatterysResistanceDemands) {
    auto parameters = still_input();
    parameters.battery_resistance_ohm = 0.010;
    parameters.cable_resistance_ohm = 0.004;
    parameters.turns_ratio = 20.0;
    for (const double power_W : {3000.0, 9000.0, 15000.0}) {
        Bench bench(parameters);
        connect_resistance(bench, 240.0 * 240.0 / power_W);
        bench.run_for(0.5);
        const double wanted_V = 0.5 * (51.2 + std::sqrt(51.2 * 51.2 - 4.0 * 0.014 * power_W));
        EXPECT_NEAR(bench.x[TransformerInverter::input_voltage], wanted_V, 0.01 * (51.2 - wanted_V))
            << power_W;
        EXPECT_EQ(bench.channels()[2], 0.0);
    }
}

// A sine of crest A, clipped at a share c of it: RMS^2 = A^2 [a - c sqrt(1 - c^2)] / pi + c^2 A^2
// (1 - 2 a / pi), a = asin c.
TEST(TransformerInverter, WaveHasFlatTopsAtTheInputVoltageTimesTheTurnsRatio) {
    auto parameters = still_input();
    parameters.turns_ratio = 6.7;
    parameters.battery_resistance_ohm = 0.02;
    Bench bench(parameters);
    connect_resistance(bench, 6.0);
    bench.run_for(0.6);
    const double top_V = 6.7 * bench.x[TransformerInverter::input_voltage];
    const double crest_V = 240.0 * std::sqrt(2.0);
    ASSERT_LT(top_V, 0.95 * crest_V);
    double highest_V = 0.0;
    bool flat = false;
    double square = 0.0;
    const double begin_s = bench.time_s;
    double last_s = begin_s;
    bench.run_for(1.0 / 60.0, [&] {
        highest_V = std::max(highest_V, bench.emf_V());
        flat = flat || bench.channels()[2] == 1.0;
        square += bench.emf_V() * bench.emf_V() * (bench.time_s - last_s);
        last_s = bench.time_s;
    });
    EXPECT_NEAR(highest_V, top_V, 0.002 * top_V);
    EXPECT_TRUE(flat);
    const double c = top_V / crest_V;
    const double a = std::asin(c);
    const double wanted =
        crest_V * std::sqrt(2.0 * (0.5 * a - 0.5 * c * std::sqrt(1.0 - c * c)) / pi +
                            c * c * (1.0 - 2.0 * a / pi));
    EXPECT_NEAR(std::sqrt(square * 60.0), wanted, 0.002 * wanted);
}

TEST(TransformerInverter, FlatTopGuardsChangeSignWhereTheClampSetsIn) {
    support::RandomNumbers random(12);
    TransformerInverter inverter(six_kilowatts());
    int flat_count = 0;
    for (int k = 0; k < 2000; ++k) {
        std::array<double, TransformerInverter::state_count> x{};
        x[TransformerInverter::input_voltage] = random.between(30.0, 52.0);
        const double time_s = random.between(0.0, 1.0 / 60.0);
        inverter.set_origin(time_s);
        std::array<double, TransformerInverter::guard_count> guards{};
        inverter.guards(x.data(), time_s, {}, guards.data());
        const double wanted = 240.0 * std::sqrt(2.0) * std::sin(2.0 * pi * 60.0 * time_s);
        const double emf = inverter.emf_V(x.data(), time_s);
        const bool flat = guards[TransformerInverter::flat_top_positive] < 0.0 ||
                          guards[TransformerInverter::flat_top_negative] < 0.0;
        ASSERT_EQ(flat, std::abs(emf - wanted) > 1e-9);
        ASSERT_EQ(flat, inverter.channels(x.data(), time_s, {})[2] == 1.0);
        ASSERT_LE(std::abs(emf), std::abs(wanted) + 1e-9);
        flat_count += flat ? 1 : 0;
    }
    EXPECT_GT(flat_count, 300);
    EXPECT_LT(flat_count, 1700);
}

TEST(TransformerInverter, EnergyClosesWithEverythingSwitchedOn) {
    auto parameters = six_kilowatts();
    parameters.battery_resistance_ohm = 0.03;
    parameters.turns_ratio = 7.0;
    parameters.battery_minimum_V = 5.0;
    Bench bench(parameters);
    bench.connect(1.4, 6.0, 2e-4);
    bench.run_for(0.5);
    bench.open_circuit();
    bench.connect(40.0, 60.0, 2e-4);
    bench.run_for(0.3);
    EXPECT_GT(bench.events, 20);
    EXPECT_LT(std::abs(bench.closure()), 1e-7);
    bench.supply.on_guard(TransformerInverter::battery_low, bench.x.data());
    bench.run_for(0.2);
    EXPECT_LT(std::abs(bench.closure()), 1e-7);
    EXPECT_NEAR(bench.channels()[0], 0.0, 1e-6);
}

TEST(TransformerInverter, LoadMayChargeTheBattery) {
    Bench bench(six_kilowatts());
    std::array<double, TransformerInverter::state_count> rate{};
    const double quarter_s = 0.25 / 60.0;
    bench.supply.set_origin(quarter_s);
    bench.supply.derivatives(bench.x.data(), rate.data(), quarter_s, {-10.0, 0.0, 340.0});
    EXPECT_GT(rate[TransformerInverter::input_voltage], 0.0);
}

// At a short circuit in the middle of nowhere the input collapses; nothing may become infinite.
TEST(TransformerInverter, CollapsedInputStaysFinite) {
    auto parameters = still_input();
    parameters.input_capacitance_uF = 30000.0;
    parameters.leakage_reactance_percent = 0.1;
    parameters.surge_time_s = 600.0;
    parameters.battery_surge_time_s = 600.0;
    parameters.battery_minimum_time_s = 60.0;
    Bench bench(parameters);
    bench.connect(0.001, 0.001);
    bench.run_for(0.2, [&] {
        for (const double value : bench.x) {
            ASSERT_TRUE(std::isfinite(value));
        }
    });
    EXPECT_LT(bench.x[TransformerInverter::input_voltage], 40.0);
}

}  // namespace
