#include "sim/monitors/rest_before_retry.hpp"

#include <gtest/gtest.h>

#include "monitors/monitor_bench.hpp"

namespace {

using Bench = sim_test::MonitorBench<sim::RestBeforeRetry>;

/// Fed, then not for a while, then fed again.
Bench after_a_pause_of(double pause_s,
                       const sim::MonitorContext& context = sim_test::strict_context()) {
    Bench bench(context);
    bench.hold_s(0.1);
    bench.at.plant.main_conducting = false;
    bench.hold_s(pause_s);
    bench.at.plant.main_conducting = true;
    bench.hold_s(0.1);
    return bench;
}

TEST(RestBeforeRetry, IsBrokenByAPauseJustShorterThanTheRest) {
    const Bench bench = after_a_pause_of(1.998);
    ASSERT_TRUE(bench.broken());
    EXPECT_NEAR(bench.violation().seen, 1.998, 2e-4);
    EXPECT_EQ(bench.violation().allowed, 2.0);
    EXPECT_FALSE(after_a_pause_of(2.0005).broken());
}

TEST(RestBeforeRetry, DoesNotTakeAGapOfPhaseControlForAPause) {
    EXPECT_FALSE(after_a_pause_of(0.0087).broken());
    EXPECT_FALSE(after_a_pause_of(0.199).broken());
    EXPECT_TRUE(after_a_pause_of(0.201).broken());
}

TEST(RestBeforeRetry, TakesAContactorsPauseForAPauseWhateverTheBypassDoes) {
    for (const double pause_s : {1.9, 2.1}) {
        Bench bench;
        bench.hold_s(0.1);
        bench.at.plant.line_connected = false;
        bench.hold_s(pause_s);
        bench.at.plant.line_connected = true;
        bench.hold_s(0.1);
        EXPECT_EQ(bench.broken(), pause_s < 2.0);
    }
}

TEST(RestBeforeRetry, AsksForNoRestBeforeTheFirstStart) {
    Bench bench;
    bench.at.plant.main_conducting = false;
    bench.hold_s(0.5);
    bench.at.plant.main_conducting = true;
    bench.hold_s(0.1);
    EXPECT_FALSE(bench.broken());
}

TEST(RestBeforeRetry, HasNoSayInADirectStart) {
    EXPECT_FALSE(after_a_pause_of(1.0, sim_test::direct_start_context()).broken());
}

}  // namespace
