#include "sim/monitors/start_capacitor_time.hpp"

#include <gtest/gtest.h>

#include "monitors/monitor_bench.hpp"

namespace {

using Bench = sim_test::MonitorBench<sim::StartCapacitorTime>;

TEST(StartCapacitorTime, IsBrokenOneTickAfterTheRating) {
    Bench bench;
    bench.at.plant.start_capacitor_in = true;
    bench.hold_s(0.4999);
    EXPECT_FALSE(bench.broken());
    bench.hold(2);
    ASSERT_TRUE(bench.broken());
    EXPECT_NEAR(bench.violation().seen, 0.5, 2e-4);
    EXPECT_EQ(bench.violation().allowed, 0.5);
}

TEST(StartCapacitorTime, CountsEachStayByItself) {
    Bench bench;
    for (int stay = 0; stay < 4; ++stay) {
        bench.at.plant.start_capacitor_in = true;
        bench.hold_s(0.499);
        bench.at.plant.start_capacitor_in = false;
        bench.hold(1);
    }
    EXPECT_FALSE(bench.broken());
}

TEST(StartCapacitorTime, KeepsTheFirstViolation) {
    Bench bench;
    bench.at.plant.start_capacitor_in = true;
    bench.hold_s(0.6);
    const double first_s = bench.violation().time_s;
    bench.hold_s(0.6);
    EXPECT_EQ(bench.violation().time_s, first_s);
    EXPECT_NEAR(first_s, 0.5, 2e-4);
}

}  // namespace
