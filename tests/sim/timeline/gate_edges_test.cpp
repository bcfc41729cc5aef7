// Gate edges act at their own instant, not at a tick and not at an integration step.
#include <gtest/gtest.h>

#include <cmath>

#include "timeline/bench_plant.hpp"

namespace {

using sim_test::held_rotor;
using sim_test::Instant;
using sim_test::line_only;
using sim_test::on_the_line;
using sim_test::one_tick;
using sim_test::tick;
using sim_test::with_gate;

constexpr int ticks_before = 40;  // 4 ms: 86 degrees, near the crest

TEST(GateEdge, ActsAtItsMicrosecondAndBelongsToTheIntervalThatBeginsThere) {
    for (const long edge_us : {1L, 37L, 38L, 50L, 99L}) {
        auto plant = on_the_line(held_rotor(0.0), ticks_before);
        const Instant begin = plant->now();
        plant->apply(with_gate(line_only(), edge_us, 100));
        plant->advance_to(begin + Instant{1000 * edge_us - 1});
        EXPECT_FALSE(plant->outputs().gate_on) << edge_us;
        plant->advance_to(begin + Instant{1000 * edge_us});
        EXPECT_FALSE(plant->outputs().gate_on) << edge_us;
        EXPECT_FALSE(plant->outputs().main_conducting) << edge_us;
        EXPECT_EQ(plant->outputs().main_current_A, 0.0) << edge_us;
        plant->advance_to(begin + Instant{1000 * edge_us + 1});
        EXPECT_TRUE(plant->outputs().gate_on) << edge_us;
        EXPECT_TRUE(plant->outputs().thyristor_conducting) << edge_us;
        // About 318 V on about 6 mH for one nanosecond.
        EXPECT_GT(plant->outputs().main_current_A, 2e-5) << edge_us;
        EXPECT_LT(plant->outputs().main_current_A, 1e-4) << edge_us;
    }
}

/// Main current so long after a firing at `edge_us`.
double current_after_A(long edge_us, Instant after) {
    auto plant = on_the_line(held_rotor(0.0), ticks_before);
    const Instant end = plant->now() + Instant{1000 * edge_us} + after;
    tick(*plant, with_gate(line_only(), edge_us, 100));
    plant->apply(with_gate(line_only(), 0, 100));
    plant->advance_to(end);
    return plant->outputs().main_current_A;
}

TEST(GateEdge, OneMicrosecondLaterStartsTheCurrentOneMicrosecondLater) {
    // Near the crest the voltage is flat, so the same time after the firing the current is the
    // same.
    for (long edge_us = 5; edge_us < 90; edge_us += 7) {
        const double earlier = current_after_A(edge_us, one_tick);
        const double later = current_after_A(edge_us + 1, one_tick);
        const double per_us = earlier / 100.0;
        EXPECT_NEAR(earlier, later, 0.01 * per_us) << edge_us;
        // And at the same instant it lags by what flows in a microsecond.
        const double same_instant = current_after_A(edge_us + 1, one_tick - Instant{1000});
        EXPECT_NEAR(earlier - same_instant, per_us, 0.03 * per_us) << edge_us;
    }
}

TEST(GateEdge, WithinATickEqualsACommandGivenAtThatInstant) {
    auto scheduled = on_the_line(held_rotor(0.0), ticks_before);
    tick(*scheduled, with_gate(line_only(), 37, 100));

    auto commanded = on_the_line(held_rotor(0.0), ticks_before);
    const Instant begin = commanded->now();
    commanded->apply(line_only());
    commanded->advance_to(begin + Instant{37'000});
    commanded->apply(with_gate(line_only(), 0, 100));
    commanded->advance_to(begin + one_tick);

    const double current = scheduled->outputs().main_current_A;
    EXPECT_GT(current, 3.0);
    EXPECT_NEAR(commanded->outputs().main_current_A, current, 1e-9 * current);
    EXPECT_NEAR(commanded->outputs().aux_current_A, scheduled->outputs().aux_current_A,
                1e-9 * std::abs(scheduled->outputs().aux_current_A));
}

TEST(GateEdge, ThatEndsThePulseActsAtItsMicrosecondToo) {
    auto plant = on_the_line(held_rotor(0.0), ticks_before);
    const Instant begin = plant->now();
    plant->apply(with_gate(line_only(), 20, 61));
    plant->advance_to(begin + Instant{61'000});
    EXPECT_TRUE(plant->outputs().gate_on);
    plant->advance_to(begin + Instant{61'001});
    EXPECT_FALSE(plant->outputs().gate_on);
    EXPECT_TRUE(plant->outputs().thyristor_conducting);  // about 2 A: it has latched
}

TEST(GatePulse, OfNoLengthIsNoPulse) {
    auto plant = on_the_line(held_rotor(0.0), ticks_before);
    for (const long at_us : {0L, 50L, 100L}) {
        tick(*plant, with_gate(line_only(), at_us, at_us));
        EXPECT_FALSE(plant->outputs().main_conducting) << at_us;
        EXPECT_EQ(plant->outputs().main_current_A, 0.0) << at_us;
    }
}

TEST(GatePulse, ThatEndsBelowTheLatchingCurrentLeavesTheThyristorOff) {
    auto description = held_rotor(0.0);
    description.limiter.thyristor_latching_mA = 1000.0;
    // 318 V on 6 mH: about 52 mA per microsecond, so 1 A after 19 us.
    auto weak = on_the_line(description, ticks_before);
    tick(*weak, with_gate(line_only(), 40, 55));
    EXPECT_FALSE(weak->outputs().main_conducting);
    EXPECT_EQ(weak->outputs().main_current_A, 0.0);

    auto strong = on_the_line(description, ticks_before);
    tick(*strong, with_gate(line_only(), 40, 65));
    EXPECT_TRUE(strong->outputs().thyristor_conducting);
    EXPECT_GT(strong->outputs().main_current_A, 2.0);

    // The lower the latching current, the shorter the pulse that does.
    description.limiter.thyristor_latching_mA = 80.0;
    auto sensitive = on_the_line(description, ticks_before);
    tick(*sensitive, with_gate(line_only(), 40, 55));
    EXPECT_TRUE(sensitive->outputs().thyristor_conducting);
}

TEST(GatePulse, GoesOnUnbrokenIntoTheNextTick) {
    auto description = held_rotor(0.0);
    description.limiter.thyristor_latching_mA = 1000.0;
    // At the tick's end about 0.5 A flow: any gap there would open the thyristor.
    auto unbroken = on_the_line(description, ticks_before);
    tick(*unbroken, with_gate(line_only(), 90, 100));
    const double at_boundary_A = unbroken->outputs().main_current_A;
    ASSERT_GT(at_boundary_A, 0.3);
    ASSERT_LT(at_boundary_A, 1.0);
    EXPECT_TRUE(unbroken->outputs().gate_on);
    const Instant boundary = unbroken->now();
    unbroken->apply(with_gate(line_only(), 0, 40));
    EXPECT_TRUE(unbroken->outputs().main_conducting);
    unbroken->advance_to(boundary + Instant{1});
    EXPECT_GT(unbroken->outputs().main_current_A, at_boundary_A);
    unbroken->advance_to(boundary + one_tick);
    EXPECT_TRUE(unbroken->outputs().thyristor_conducting);

    auto broken = on_the_line(description, ticks_before);
    tick(*broken, with_gate(line_only(), 90, 99));
    EXPECT_FALSE(broken->outputs().main_conducting);

    // A pulse that lasts to the end, and no pulse after it: it ends with the tick.
    auto ended = on_the_line(description, ticks_before);
    tick(*ended, with_gate(line_only(), 90, 100));
    ended->apply(line_only());
    EXPECT_FALSE(ended->outputs().gate_on);
    EXPECT_FALSE(ended->outputs().main_conducting);
}

TEST(GatePulse, OfAWholeTickStaysOnUntilTheNextCommand) {
    auto plant = on_the_line(held_rotor(0.0), ticks_before);
    tick(*plant, with_gate(line_only(), 0, 100));
    plant->advance_to(plant->now() + 2 * one_tick);
    EXPECT_TRUE(plant->outputs().gate_on);
    plant->apply(line_only());
    EXPECT_FALSE(plant->outputs().gate_on);
}

TEST(ThyristorPair, StopsAtTheCurrentZeroAndStaysOffUntilTheNextPulse) {
    auto plant = on_the_line(held_rotor(0.0), ticks_before);
    tick(*plant, with_gate(line_only(), 50, 70));
    double highest_A = 0.0;
    int ticks = 0;
    while (plant->outputs().main_conducting && ticks < 200) {
        tick(*plant, line_only());
        highest_A = std::max(highest_A, plant->outputs().main_current_A);
        EXPECT_GE(plant->outputs().main_current_A, 0.0);
        ++ticks;
    }
    EXPECT_GT(highest_A, 20.0);
    EXPECT_GT(ticks, 20);  // longer than 2 ms, shorter than a cycle
    EXPECT_LT(ticks, 160);
    EXPECT_EQ(plant->outputs().main_current_A, 0.0);
    for (int k = 0; k < 100; ++k) {
        tick(*plant, line_only());
        EXPECT_EQ(plant->outputs().main_current_A, 0.0);
    }
    EXPECT_GE(plant->events(), 1);
}

}  // namespace
