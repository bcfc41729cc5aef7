#include "sim/monitors/bypass_speed.hpp"

#include <gtest/gtest.h>

#include "monitors/monitor_bench.hpp"

namespace {

using Bench = sim_test::MonitorBench<sim::BypassSpeed>;

TEST(BypassSpeed, IsBrokenByATouchJustBelowTheLowestSpeed) {
    Bench bench;
    bench.at.plant.speed_rad_per_s = 79.999;
    bench.hold(10);
    EXPECT_FALSE(bench.broken());
    bench.at.commands.bypass_coil = true;
    bench.at.plant.bypass_closed = true;
    bench.hold(1);
    ASSERT_TRUE(bench.broken());
    EXPECT_NEAR(bench.violation().seen, 79.999, 1e-9);
    EXPECT_EQ(bench.violation().allowed, 80.0);
    EXPECT_NEAR(bench.violation().time_s, 0.001, 1e-12);
}

TEST(BypassSpeed, AllowsATouchAtExactlyTheLowestSpeed) {
    Bench bench;
    bench.at.plant.speed_rad_per_s = 80.0;
    bench.at.commands.bypass_coil = true;
    bench.at.plant.bypass_closed = true;
    bench.hold(1000);
    EXPECT_FALSE(bench.broken());
}

TEST(BypassSpeed, IsJudgedAtTheSupplysFrequencyOfThatInstant) {
    for (const double share : {0.799, 0.801}) {
        Bench bench;
        bench.at.plant.supply_frequency_Hz = 51.0;  // a generator that is loaded hard
        bench.at.plant.speed_rad_per_s = share * 85.0;
        bench.at.commands.bypass_coil = true;
        bench.at.plant.bypass_closed = true;
        bench.hold(1);
        EXPECT_EQ(bench.broken(), share < 0.8) << share;
    }
}

TEST(BypassSpeed, AllowsTheReactionTimeAfterTheSpeedHasFallenAndNoMore) {
    Bench bench;
    bench.at.commands.bypass_coil = true;
    bench.at.plant.bypass_closed = true;
    bench.hold(10);
    bench.at.plant.speed_rad_per_s = 50.0;
    bench.hold_s(0.0299);
    EXPECT_FALSE(bench.broken());
    bench.hold(3);
    EXPECT_TRUE(bench.broken());
}

TEST(BypassSpeed, ForgetsASlownessThatEndedInTime) {
    Bench bench;
    bench.at.commands.bypass_coil = true;
    bench.at.plant.bypass_closed = true;
    bench.hold(1);
    for (int dip = 0; dip < 5; ++dip) {
        bench.at.plant.speed_rad_per_s = 75.0;
        bench.hold_s(0.029);
        bench.at.plant.speed_rad_per_s = 85.0;
        bench.hold(1);
    }
    EXPECT_FALSE(bench.broken());
}

TEST(BypassSpeed, IsBrokenByASecondTouchWhileSlow) {
    // A contact that parts and comes back is a new touch: no reaction time for it.
    Bench bench;
    bench.at.commands.bypass_coil = true;
    bench.at.plant.bypass_closed = true;
    bench.hold(5);
    bench.at.plant.bypass_closed = false;
    bench.at.plant.speed_rad_per_s = 60.0;
    bench.hold(5);
    EXPECT_FALSE(bench.broken());
    bench.at.commands.bypass_coil = true;
    bench.at.plant.bypass_closed = true;
    bench.hold(1);
    EXPECT_TRUE(bench.broken());
}

TEST(BypassSpeed, HasNoSayInADirectStart) {
    Bench bench(sim_test::direct_start_context());
    bench.at.plant.speed_rad_per_s = 0.0;
    bench.at.commands.bypass_coil = true;
    bench.at.plant.bypass_closed = true;
    bench.hold_s(1.0);
    EXPECT_FALSE(bench.broken());
}

TEST(BypassSpeed, GivesAContactThatClosedItselfTheReactionTimeToTakeTheMotorOffTheLine) {
    Bench bench;
    bench.at.plant.speed_rad_per_s = 0.0;
    bench.at.plant.bypass_closed = true;
    bench.hold_s(0.029);
    EXPECT_FALSE(bench.broken());
    bench.at.plant.line_connected = false;
    bench.hold_s(1.0);
    EXPECT_FALSE(bench.broken());
    bench.at.plant.line_connected = true;
    bench.hold_s(0.031);
    EXPECT_TRUE(bench.broken());
}

TEST(BypassSpeed, HasNoSayWhereThereIsNoMotor) {
    Bench bench;
    bench.at.commands.bypass_coil = true;
    bench.at.plant.bypass_closed = true;
    bench.at.plant.main_conducting = false;
    bench.at.plant.speed_rad_per_s = 0.0;
    bench.hold_s(1.0);
    EXPECT_FALSE(bench.broken());
}

}  // namespace
