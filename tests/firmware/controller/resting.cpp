#include <gtest/gtest.h>

#include <cstdint>
#include <vector>

#include "bench_signals/drive.hpp"

namespace {

using namespace firmware;
using bench_signals::all_off;
using bench_signals::Drive;
using bench_signals::Entry;

Settings short_rests() {
    Settings settings;
    settings.rest_before_retry_s = 2;
    settings.lockout_clear_s = 4;
    return settings;
}

/// A start that succeeds and ends with its call.
void start_and_stop(Drive& drive) {
    ASSERT_TRUE(drive.run_until(State::running, 3.0));
    drive.run_for(0.5);
    drive.motor.call = false;
    drive.run_for(0.5);
    drive.history.clear();
}

/// The controller sleeps while the line and the rotor go on.
void sleep(Drive& drive, Ticks ticks) {
    drive.controller.rest(ticks);
    for (std::uint32_t k = 0; k < ticks.count(); ++k) {
        drive.motor.pass(ActuatorFrame{});
    }
}

std::vector<State> states(const Drive& drive) {
    std::vector<State> list;
    for (const Entry& entry : drive.history) {
        list.push_back(entry.state);
    }
    return list;
}

// Covers: RT-07
TEST(Resting, AStartAfterItGoesLikeOneAfterAsManyTicksOfSteppingWithoutACall) {
    for (const int rest_ms : {500, 1400, 1700, 5000}) {
        Drive stepped(short_rests());
        stepped.motor.run_up_s = 0.5;  // well within a stage, wherever the half cycles fall
        start_and_stop(stepped);
        Drive rested = stepped;
        stepped.run_for(rest_ms * 1e-3);
        sleep(rested, ticks_from_ms(rest_ms));
        for (Drive* drive : {&stepped, &rested}) {
            drive->history.clear();
            drive->motor.call = true;
            ASSERT_TRUE(drive->run_until(State::running, 6.0)) << rest_ms;
            drive->run_for(0.2);
        }
        EXPECT_EQ(states(rested), states(stepped)) << rest_ms;
        EXPECT_EQ(rested.controller.telemetry().stage, stepped.controller.telemetry().stage);
        // The line has to be found again: six cycles at most (judgement of the tracker's lock).
        const double later_s =
            rested.first_time_in(State::probing) - stepped.first_time_in(State::probing);
        EXPECT_LT(std::abs(later_s), 0.15) << rest_ms;
        const auto from_probing_to_running = [](const Drive& drive) {
            return drive.first_time_in(State::running) - drive.first_time_in(State::probing);
        };
        EXPECT_NEAR(from_probing_to_running(rested), from_probing_to_running(stepped), 0.021)
            << rest_ms;
    }
}

// Covers: RT-07
TEST(Resting, TheRestBeforeARetryIsCountedToTheTick) {
    for (const int missing : {0, 1}) {
        Drive drive(short_rests());
        ASSERT_TRUE(drive.run_until(State::running, 3.0));
        drive.motor.call = false;
        drive.tick();  // lets go: from here on it counts
        // Two seconds and the contacts' 50 ms; waking up takes the tick that is counted last.
        constexpr std::uint32_t rest = 2 * 10000 + 500;
        drive.controller.rest(Ticks{rest - 1U - static_cast<std::uint32_t>(missing)});
        drive.motor.call = true;
        drive.tick();
        EXPECT_EQ(drive.state(), missing == 0 ? State::listening : State::backing_off);
    }
}

TEST(Resting, ALockOutEndsWithALongRestOnly) {
    for (const int rest_s : {3, 5}) {
        Drive drive(short_rests());
        drive.motor.rotor = bench_signals::Rotor::stuck;
        ASSERT_TRUE(drive.run_until(State::locked_out, 20.0));
        drive.controller.rest(ticks_from_s(rest_s));
        EXPECT_EQ(drive.controller.telemetry().state,
                  rest_s > 4 ? State::resting : State::locked_out);
    }
}

// Covers: LG-02
TEST(Resting, EverythingIsOffAfterItWhateverWasOnBefore) {
    for (const State state :
         {State::listening, State::probing, State::climbing, State::handing_over, State::running}) {
        Drive drive(short_rests());
        ASSERT_TRUE(drive.run_until(state, 3.0));
        drive.controller.rest(Ticks{1U});
        EXPECT_EQ(drive.controller.telemetry().state, State::resting);
        EXPECT_EQ(drive.controller.telemetry().reason, Reason::call_ended);
        drive.motor.call = false;
        EXPECT_TRUE(all_off(drive.tick()));
    }
}

TEST(Resting, ForNoTimeIsNoRest) {
    Drive drive;
    ASSERT_TRUE(drive.run_until(State::running, 3.0));
    drive.controller.rest(Ticks{0U});
    drive.tick();
    EXPECT_EQ(drive.state(), State::running);
}

TEST(Resting, NeverWrapsTheTimers) {
    Drive drive(short_rests());
    start_and_stop(drive);
    for (int k = 0; k < 3; ++k) {
        drive.controller.rest(Ticks{0xF0000000U});
    }
    drive.motor.call = true;
    EXPECT_TRUE(drive.run_until(State::running, 3.0));
}

// Covers: CT-07
TEST(Resting, WithSettingsThatAreRefusedChangesNothing) {
    Settings settings;
    settings.tries = 0;
    Drive drive(settings);
    drive.controller.rest(ticks_from_s(1000));
    EXPECT_EQ(drive.state(), State::locked_out);
    EXPECT_TRUE(all_off(drive.tick()));
}

}  // namespace
