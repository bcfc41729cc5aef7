// The controller's own supply fails: what it knows afterwards is what the store held.
#include <gtest/gtest.h>

#include "bench_signals/drive_with_flash.hpp"

namespace {

using namespace firmware;
using bench_signals::Drive;
using bench_signals::Rotor;
using memory_test::Flash;

Settings short_rests() {
    Settings settings;
    settings.rest_before_retry_s = 2;
    settings.lockout_clear_s = 600;
    return settings;
}

// Covers: RT-05, ME-05
TEST(PowerCutOfTheController, WhileTheMotorIsFedIsFollowedByAWholeRest) {
    for (const State state :
         {State::probing, State::climbing, State::handing_over, State::running}) {
        Flash flash;
        Drive before(short_rests());
        ASSERT_TRUE(run_until(before, flash, state, 2.0));
        Drive after(short_rests(), 0.0, flash.pages());
        run_for(after, flash, 1.99);
        EXPECT_EQ(after.first_time_in(State::probing), -1.0) << name_of(state);
        EXPECT_EQ(after.reason(), Reason::rest_not_over);
        EXPECT_TRUE(run_until(after, flash, State::running, 2.0)) << "then it starts";
    }
}

// Covers: RT-05
TEST(PowerCutOfTheController, InTheRestIsFollowedByAWholeRest) {
    Flash flash;
    Drive before(short_rests());
    ASSERT_TRUE(run_until(before, flash, State::running, 2.0));
    before.motor.call = false;
    run_for(before, flash, 1.9);
    Drive after(short_rests(), 0.0, flash.pages());
    run_for(after, flash, 1.99);
    EXPECT_EQ(after.first_time_in(State::probing), -1.0);
}

// Covers: ME-06
TEST(PowerCutOfTheController, AfterTheRestCostsNothing) {
    Flash flash;
    Drive before(short_rests());
    ASSERT_TRUE(run_until(before, flash, State::running, 2.0));
    before.motor.call = false;
    run_for(before, flash, 2.2);
    Drive after(short_rests(), 0.0, flash.pages());
    EXPECT_TRUE(run_until(after, flash, State::probing, 0.2));
}

// Covers: RT-05
TEST(PowerCutOfTheController, DoesNotGiveBackTries) {
    Flash flash;
    Drive first(short_rests());
    first.motor.rotor = Rotor::stuck;
    ASSERT_TRUE(run_until(first, flash, State::climbing, 2.0));
    Drive second(short_rests(), 0.0, flash.pages());
    second.motor.rotor = Rotor::stuck;
    ASSERT_TRUE(run_until(second, flash, State::climbing, 3.0));
    EXPECT_EQ(second.controller.telemetry().tries_made, 1)
        << "a try counts once it has been written down, before the next one";
    ASSERT_TRUE(run_until(second, flash, State::backing_off, 3.0));
    run_for(second, flash, 0.1);
    Drive third(short_rests(), 0.0, flash.pages());
    EXPECT_EQ(third.controller.telemetry().tries_made, 1);
}

// Covers: RT-05, RT-03
TEST(PowerCutOfTheController, InTheRestAfterTheLastTryLeavesItLockedOut) {
    Flash flash;
    Journal journal(flash.pages());
    memory_test::save_whole(journal, flash, with_rest_mark(Payload{}, {true, 3}));
    Drive drive(short_rests(), 0.0, flash.pages());
    run_for(drive, flash, 5.0);
    EXPECT_EQ(drive.state(), State::locked_out);
    EXPECT_EQ(drive.reason(), Reason::tries_used_up);
}

// Covers: ME-07
TEST(PowerCutOfTheController, NeverComesBetweenFeedingAndItsMark) {
    // At no instant is the motor fed while the store does not say that a rest is owed.
    bool was_fed = false;
    Flash flash;
    Drive drive(short_rests());
    while (drive.motor.time_s() < 9.0) {
        drive.motor.call = drive.motor.time_s() < 2.0 || drive.motor.time_s() > 4.5;
        const ActuatorFrame frame = drive.tick();
        const StoreCommand command = drive.controller.store_command();
        flash.carry_out(command);
        // What the store says changes only with a command.
        const bool look = command.kind != StoreCommandKind::none || !was_fed;
        was_fed = frame.contactor_permit == 1;
        if (was_fed && look) {
            ASSERT_TRUE(Keeper(flash.pages()).rest_mark().owed) << drive.motor.time_s();
        }
    }
    EXPECT_EQ(drive.state(), State::running);
}

// Covers: ME-08
TEST(PowerCutOfTheController, TicksThatAnEraseLeavesOutDoNotSpoilTheStart) {
    // A store that is full: the mark needs an erase, and 40 ms pass in it without a tick.
    Flash flash;
    {
        Journal journal(flash.pages());
        for (std::size_t i = 0; i < Journal::slots_per_page; ++i) {
            memory_test::save_whole(journal, flash, with_rest_mark(Payload{}, {}));
        }
    }
    for (int phase = 0; phase < 10; ++phase) {
        Flash store = flash;
        Drive drive(short_rests(), phase * 36.0, store.pages());
        drive.motor.call = false;
        run_for(drive, store, 0.5);
        drive.motor.call = true;
        bool erased = false;
        while (drive.motor.time_s() < 3.0 && drive.state() != State::running) {
            drive.tick();
            const StoreCommand command = drive.controller.store_command();
            store.carry_out(command);
            if (command.kind == StoreCommandKind::erase_page) {
                erased = true;
                for (int tick = 0; tick < 403; ++tick) {
                    drive.motor.pass(ActuatorFrame{});
                }
            }
        }
        EXPECT_TRUE(erased);
        EXPECT_EQ(drive.state(), State::running);
        EXPECT_EQ(drive.controller.telemetry().tries_made, 1) << "at the first try";
    }
}

}  // namespace
