// The controller learns from its starts, and remembers over a power cut.
#include <gtest/gtest.h>

#include "bench_signals/drive_with_flash.hpp"

namespace {

using namespace firmware;
using bench_signals::Drive;
using bench_signals::learning_with_short_rests;
using memory_test::Flash;

/// One start, a second of running, and the rest after it.
void start_and_stop(Drive& drive, Flash& flash) {
    drive.motor.call = true;
    run_for(drive, flash, 3.0);
    EXPECT_EQ(drive.state(), State::running);
    drive.motor.call = false;
    run_for(drive, flash, 2.0);
}

TEST(Learning, BeginsWithTheSettingsLadderAndThenTriesAnother) {
    Flash flash;
    Drive drive(learning_with_short_rests());
    drive.motor.run_up_s = 0.4;
    EXPECT_EQ(drive.controller.telemetry().learned_level_permille, 1000);
    EXPECT_EQ(drive.controller.telemetry().memory, Recovery::fresh);
    start_and_stop(drive, flash);
    EXPECT_LT(drive.controller.telemetry().learned_level_permille, 1000);
    EXPECT_GT(flash.writes(), 0);
}

// Covers: LRN-01
TEST(Learning, SettlesWithinSixStarts) {
    Flash flash;
    Drive drive(learning_with_short_rests());
    drive.motor.run_up_s = 0.4;
    for (int k = 0; k < 6; ++k) {
        start_and_stop(drive, flash);
    }
    EXPECT_EQ(drive.controller.telemetry().learning_settled, 1);
    const auto settled = drive.controller.telemetry().learned_level_permille;
    start_and_stop(drive, flash);
    EXPECT_EQ(drive.controller.telemetry().learned_level_permille, settled);
}

TEST(Learning, GoesOnAfterAPowerCutWhereItWas) {
    Flash flash;
    Drive before(learning_with_short_rests());
    before.motor.run_up_s = 0.4;
    start_and_stop(before, flash);
    start_and_stop(before, flash);
    Drive after(learning_with_short_rests(), 0.0, flash.pages());
    EXPECT_EQ(after.controller.telemetry().memory, Recovery::recovered);
    EXPECT_EQ(after.controller.telemetry().learned_level_permille,
              before.controller.telemetry().learned_level_permille);
    // The first trial climbs on what was learned, not on the settings' ladder.
    after.motor.run_up_s = 0.4;
    ASSERT_TRUE(after.run_until(State::climbing, 1.0));
    before.motor.call = true;
    ASSERT_TRUE(before.run_until(State::climbing, 1.0));
    EXPECT_EQ(after.controller.telemetry().firing_angle_mdeg,
              before.controller.telemetry().firing_angle_mdeg);
}

// Covers: LRN-06
TEST(Learning, IsOffIfTheSettingsSaySo) {
    Flash flash;
    Settings settings = learning_with_short_rests();
    settings.learning_law = LearningLawKind::none;
    Drive drive(settings);
    start_and_stop(drive, flash);
    start_and_stop(drive, flash);
    EXPECT_EQ(drive.controller.telemetry().learned_level_permille, 1000);
    const Keeper next(flash.pages());
    EXPECT_TRUE(next.learned().is_fresh());
    EXPECT_FALSE(next.rest_mark().owed) << "the rest is over";
}

TEST(Learning, HoldsNoStoreCommandOverARest) {
    // A command that the world has carried out once must not be met again after a sleep.
    Flash flash;
    Drive drive(learning_with_short_rests());
    drive.motor.run_up_s = 0.4;
    start_and_stop(drive, flash);
    drive.motor.call = true;
    drive.run_for(3.0);
    drive.motor.call = false;
    for (int k = 0; drive.controller.store_command().kind == StoreCommandKind::none; ++k) {
        ASSERT_LT(k, 1000);
        drive.tick();
    }
    drive.controller.rest(ticks_from_s(5));
    EXPECT_EQ(drive.controller.store_command().kind, StoreCommandKind::none);
}

}  // namespace
