// What comes once per half cycle, or once per start, is spread over ticks: no tick of a small
// processor does two dear things, and what is decided still falls on the voltage zero.
#include <gtest/gtest.h>

#include <cstdint>
#include <random>
#include <string>

#include "bench_signals/drive_with_flash.hpp"
#include "firmware/watch/watch.hpp"

namespace {

using namespace firmware;
using bench_signals::Drive;
using bench_signals::learning_with_short_rests;

WatchedVariable variable_named(const std::string& name) {
    for (std::size_t k = 0; k < Watch::part_count; ++k) {
        const WatchedPart part = Watch::part(k);
        for (std::size_t i = 0; i < part.count; ++i) {
            if (name == part.first[i].name) {
                return part.first[i];
            }
        }
    }
    ADD_FAILURE() << "nothing is called " << name;
    return {};
}

TEST(SpreadWork, DecisionsFallOnTheVoltageZero) {
    const WatchedVariable readings_are_new = variable_named("seen.readings_are_new");
    const WatchedVariable zero = variable_named("line.half_cycle_began");
    Drive drive;
    int decisions = 0;
    while (drive.motor.time_s() < 3.0) {
        drive.tick();
        if (drive.controller.telemetry().line_locked != 0) {
            const bool decides = readings_are_new.value(drive.controller) != 0;
            ASSERT_EQ(decides, zero.value(drive.controller) != 0) << drive.motor.time_s();
            decisions += decides ? 1 : 0;
        }
    }
    EXPECT_EQ(drive.state(), State::running);
    EXPECT_GT(decisions, 250);
}

TEST(SpreadWork, TheLineTrackerLeavesTheReadingsAndTheDecisionTheirTicks) {
    const WatchedVariable ending = variable_named("line.half_cycle_ending");
    const WatchedVariable to_refresh = variable_named("line.ticks_to_refresh");
    Drive drive;
    int left = 0;
    bool was_ending = false;
    std::int64_t before = to_refresh.value(drive.controller);
    while (drive.motor.time_s() < 3.0) {
        drive.tick();
        const std::int64_t now = to_refresh.value(drive.controller);
        if (was_ending) {
            ASSERT_EQ(now, before - 1) << "refreshed at " << drive.motor.time_s();
            ++left;
        }
        was_ending = ending.value(drive.controller) != 0;
        before = now;
    }
    EXPECT_GT(left, 1000);
}

// Whatever the line does to the tracked phase.
TEST(SpreadWork, ARefreshOfTheLineIsNeverPutOffForLong) {
    const WatchedVariable to_refresh = variable_named("line.ticks_to_refresh");
    for (std::uint32_t seed = 1; seed <= 20; ++seed) {
        std::mt19937 random(seed);
        Controller controller{Settings{}};
        std::uint32_t held_ticks = 0;
        SensorFrame frame;
        for (int tick = 0; tick < 50000; ++tick) {
            if (held_ticks == 0) {
                held_ticks = 1 + static_cast<std::uint32_t>(random() % 200);
                frame.line_voltage_counts = static_cast<std::uint16_t>(random() % 4096);
            }
            --held_ticks;
            controller.step(frame);
            ASSERT_LE(to_refresh.value(controller), 140) << seed << " " << tick;
        }
    }
}

TEST(SpreadWork, TheMemoryLeavesTheTickAloneInWhichAStartEnds) {
    memory_test::Flash flash;
    Drive drive(learning_with_short_rests());
    drive.motor.run_up_s = 0.4;
    ASSERT_TRUE(run_until(drive, flash, State::running, 3.0));
    drive.motor.call = false;
    ASSERT_TRUE(run_until(drive, flash, State::resting, 0.1));
    EXPECT_EQ(drive.controller.store_command().kind, StoreCommandKind::none);
    tick(drive, flash);
    EXPECT_NE(drive.controller.store_command().kind, StoreCommandKind::none) << "what was learned";
}

}  // namespace
