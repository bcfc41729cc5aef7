#include "sim/monitors/gate_supply_limits.hpp"

#include <gtest/gtest.h>

#include "monitors/monitor_bench.hpp"

namespace {

using Bench = sim_test::MonitorBench<sim::GateSupplyLimits>;

/// A tenth of a second with a good supply and gate pulses, so that the first cycle has passed.
Bench gated() {
    Bench bench;
    bench.at.commands.gate_on = sim::Instant{40'000};
    bench.at.commands.gate_off = sim::Instant{60'000};
    bench.hold_s(0.1);
    return bench;
}

TEST(GateSupplyLimits, AllowsTheReactionTimeAndNoMore) {
    Bench bench = gated();
    bench.line_voltage_rms_V = 139.0;  // of 140 V
    bench.hold_s(0.0395);
    EXPECT_FALSE(bench.broken());
    bench.hold_s(0.001);
    ASSERT_TRUE(bench.broken());
    EXPECT_EQ(bench.violation().seen, 139.0);
    EXPECT_NEAR(bench.violation().allowed, 140.0, 1e-9);
    EXPECT_EQ(bench.violation().unit, "V");
}

TEST(GateSupplyLimits, HoldAtTheLimitsThemselves) {
    for (const double voltage_V : {140.001, 219.999}) {
        Bench bench = gated();
        bench.line_voltage_rms_V = voltage_V;
        bench.hold_s(1.0);
        EXPECT_FALSE(bench.broken()) << voltage_V;
    }
    for (const double voltage_V : {139.999, 220.001}) {
        Bench bench = gated();
        bench.line_voltage_rms_V = voltage_V;
        bench.hold_s(1.0);
        EXPECT_TRUE(bench.broken()) << voltage_V;
    }
    for (const double frequency_Hz : {47.0, 63.0}) {
        Bench bench = gated();
        bench.at.plant.supply_frequency_Hz = frequency_Hz;
        bench.hold_s(1.0);
        EXPECT_FALSE(bench.broken()) << frequency_Hz;
    }
    for (const double frequency_Hz : {46.999, 63.001}) {
        Bench bench = gated();
        bench.at.plant.supply_frequency_Hz = frequency_Hz;
        bench.hold_s(1.0);
        ASSERT_TRUE(bench.broken()) << frequency_Hz;
        EXPECT_EQ(bench.violation().unit, "Hz");
        EXPECT_EQ(bench.violation().seen, frequency_Hz);
    }
}

TEST(GateSupplyLimits, DoNotMindABadSupplyWithoutPulses) {
    Bench bench = gated();
    bench.at.commands.gate_off = bench.at.commands.gate_on;  // equal: no pulse
    bench.line_voltage_rms_V = 20.0;
    bench.hold_s(1.0);
    EXPECT_FALSE(bench.broken());
    // The pulse that then comes is at once too late.
    bench.at.commands.gate_off = sim::Instant{100'000};
    bench.hold(1);
    EXPECT_TRUE(bench.broken());
}

TEST(GateSupplyLimits, GiveTheReactionTimeAnewAfterARecovery) {
    Bench bench = gated();
    for (int dip = 0; dip < 5; ++dip) {
        bench.line_voltage_rms_V = 100.0;
        bench.hold_s(0.039);
        bench.line_voltage_rms_V = 200.0;
        bench.hold(1);
    }
    EXPECT_FALSE(bench.broken());
}

TEST(GateSupplyLimits, DoNotJudgeTheVoltageBeforeOneCycleHasPassed) {
    Bench bench;
    bench.at.commands.gate_off = sim::Instant{100'000};
    bench.line_voltage_rms_V = 0.0;
    bench.hold_s(0.025);
    EXPECT_FALSE(bench.broken());
}

}  // namespace
