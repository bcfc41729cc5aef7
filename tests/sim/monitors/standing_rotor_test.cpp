#include "sim/monitors/standing_rotor.hpp"

#include <gtest/gtest.h>

#include "monitors/monitor_bench.hpp"

namespace {

using Bench = sim_test::MonitorBench<sim::StandingRotor>;

TEST(StandingRotor, IsBrokenOneTickAfterTheLimit) {
    Bench bench;
    bench.at.plant.speed_rad_per_s = 0.0;
    bench.hold_s(0.3999);
    EXPECT_FALSE(bench.broken());
    bench.hold(2);
    ASSERT_TRUE(bench.broken());
    EXPECT_NEAR(bench.violation().seen, 0.4, 2e-4);
    EXPECT_EQ(bench.violation().allowed, 0.4);
}

TEST(StandingRotor, CallsARotorStandingUpToFivePercentEitherWay) {
    for (const double speed : {-5.0, 5.0}) {
        Bench standing;
        standing.at.plant.speed_rad_per_s = speed;
        standing.hold_s(0.5);
        EXPECT_TRUE(standing.broken()) << speed;
        Bench turning;
        turning.at.plant.speed_rad_per_s = 1.0001 * speed;
        turning.hold_s(2.0);
        EXPECT_FALSE(turning.broken()) << speed;
    }
}

TEST(StandingRotor, CountsTheGapsOfPhaseControlAsFed) {
    // 1 ms of current in every half cycle still heats the winding.
    Bench bench;
    bench.at.plant.speed_rad_per_s = 0.0;
    for (int half_cycle = 0; half_cycle < 39; ++half_cycle) {
        bench.at.plant.main_conducting = true;
        bench.hold_s(0.001);
        bench.at.plant.main_conducting = false;
        bench.hold_s(0.009);
    }
    EXPECT_FALSE(bench.broken());
    bench.at.plant.main_conducting = true;
    bench.hold_s(0.011);
    EXPECT_TRUE(bench.broken());
}

TEST(StandingRotor, AddsUpFeedsWithoutARestBetweenThem) {
    Bench bench;
    bench.at.plant.speed_rad_per_s = 0.0;
    bench.hold_s(0.3);
    bench.at.plant.main_conducting = false;
    bench.hold_s(1.9);  // the rest would be 2 s
    EXPECT_FALSE(bench.broken());
    bench.at.plant.main_conducting = true;
    bench.hold_s(0.2);
    EXPECT_TRUE(bench.broken());
}

TEST(StandingRotor, ForgetsAfterARestOrAfterTurning) {
    Bench rested;
    rested.at.plant.speed_rad_per_s = 0.0;
    rested.hold_s(0.3);
    rested.at.plant.main_conducting = false;
    rested.hold_s(2.01);
    rested.at.plant.main_conducting = true;
    rested.hold_s(0.39);
    EXPECT_FALSE(rested.broken());

    Bench turned;
    turned.at.plant.speed_rad_per_s = 0.0;
    turned.hold_s(0.39);
    turned.at.plant.speed_rad_per_s = 30.0;
    turned.hold(1);
    turned.at.plant.speed_rad_per_s = 0.0;
    turned.hold_s(0.39);
    EXPECT_FALSE(turned.broken());
}

TEST(StandingRotor, IsNotFedWithoutTheLine) {
    // Current that dies away in the loop of both windings comes from nowhere.
    Bench bench;
    bench.at.plant.speed_rad_per_s = 0.0;
    bench.at.plant.line_connected = false;
    bench.hold_s(3.0);
    EXPECT_FALSE(bench.broken());
}

TEST(StandingRotor, IsWatchedInADirectStartToo) {
    Bench bench(sim_test::direct_start_context());
    bench.at.plant.speed_rad_per_s = 0.0;
    bench.hold_s(0.5);
    EXPECT_TRUE(bench.broken());
}

}  // namespace
