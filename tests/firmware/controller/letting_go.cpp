#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "bench_signals/drive.hpp"

namespace {

using namespace firmware;
using bench_signals::all_off;
using bench_signals::Drive;
using bench_signals::Rotor;

Settings short_rests() {
    Settings settings;
    settings.rest_before_retry_s = 2;
    settings.lockout_clear_s = 4;
    return settings;
}

// Covers: LG-01
TEST(LettingGo, EverythingIsOffInTheVeryFrameThatAnswersTheEndOfTheCall) {
    for (const State state :
         {State::listening, State::probing, State::climbing, State::handing_over, State::running}) {
        for (int later = 0; later < 60; ++later) {
            Drive drive;
            ASSERT_TRUE(drive.run_until(state, 2.0));
            drive.run_for(later * 0.0007);
            drive.motor.call = false;
            ASSERT_TRUE(all_off(drive.tick())) << name_of(state) << " " << later;
            EXPECT_EQ(drive.state(), State::resting);
            EXPECT_EQ(drive.reason(), Reason::call_ended);
        }
    }
}

// Covers: IN-06
TEST(LettingGo, WithoutAMotorTheTryEndsInProbing) {
    Drive drive;
    drive.motor.connected = false;
    ASSERT_TRUE(drive.run_until(State::backing_off, 1.0));
    EXPECT_EQ(drive.reason(), Reason::no_motor);
    EXPECT_EQ(drive.first_time_in(State::climbing), -1.0);
}

// Covers: IN-06
TEST(LettingGo, AShortedOutputEndsTheTryInProbing) {
    Drive drive;
    drive.motor.locked_rotor_A = 400.0;
    ASSERT_TRUE(drive.run_until(State::backing_off, 1.0));
    EXPECT_EQ(drive.reason(), Reason::current_too_large);
}

// Covers: CL-02, LG-02
TEST(LettingGo, AStuckRotorIsLetGoAfterTheStagesAndEverythingIsOff) {
    Drive drive;
    drive.motor.rotor = Rotor::stuck;
    ASSERT_TRUE(drive.run_until(State::backing_off, 2.5));
    EXPECT_EQ(drive.reason(), Reason::stages_used_up);
    const Settings settings;
    double dwells_s = 0.0;
    for (int i = 0; i < settings.stage_count; ++i) {
        dwells_s += settings.stages[static_cast<std::size_t>(i)].dwell_ms * 1e-3;
    }
    const double climb_s =
        drive.first_time_in(State::backing_off) - drive.first_time_in(State::climbing);
    EXPECT_NEAR(climb_s, dwells_s, 0.05);
    for (int i = 0; i < 10000; ++i) {
        ASSERT_TRUE(all_off(drive.tick()));
    }
}

// Covers: RT-03
TEST(LettingGo, StalledTriesRestAndRepeatAndThenLockOut) {
    Drive drive(short_rests());
    drive.motor.rotor = Rotor::stuck;
    ASSERT_TRUE(drive.run_until(State::locked_out, 20.0));
    std::vector<std::string> told;
    for (const bench_signals::Entry& entry : drive.history) {
        told.emplace_back(name_of(entry.state));
    }
    const std::vector<std::string> expected = {"listening", "probing", "climbing", "backing off",
                                               "listening", "probing", "climbing", "backing off",
                                               "listening", "probing", "climbing", "locked out"};
    EXPECT_EQ(told, expected);
    EXPECT_EQ(drive.controller.telemetry().tries_made, 3);
    for (int i = 0; i < 100000; ++i) {
        ASSERT_TRUE(all_off(drive.tick()));
    }
}

// Covers: RT-01
TEST(LettingGo, NoRetryBeginsBeforeTheRestIsOver) {
    Drive drive(short_rests());
    drive.motor.rotor = Rotor::stuck;
    double off_since_s = -1.0;
    bool was_in = false;
    int retries = 0;
    for (int i = 0; i < 120000; ++i) {
        drive.tick();
        const bool in = drive.motor.contactor_in();
        if (was_in && !in) {
            off_since_s = drive.motor.time_s();
        }
        if (in && !was_in && off_since_s >= 0.0) {
            EXPECT_GE(drive.motor.time_s() - off_since_s, 2.0);
            ++retries;
        }
        was_in = in;
    }
    EXPECT_EQ(retries, 2);
}

// Covers: RT-02
TEST(LettingGo, SwitchingTheCallOffAndOnDoesNotShortenTheRest) {
    Drive drive(short_rests());
    ASSERT_TRUE(drive.run_until(State::running, 2.0));
    drive.run_for(1.0);
    drive.motor.call = false;
    drive.tick();
    const double stopped_s = drive.motor.time_s();
    for (int i = 0; i < 15; ++i) {
        drive.motor.call = i % 2 == 0;
        drive.run_for(0.1);
        EXPECT_EQ(drive.state(), i % 2 == 0 ? State::backing_off : State::resting);
    }
    drive.motor.call = true;
    ASSERT_TRUE(drive.run_until(State::probing, 2.0));
    EXPECT_GE(drive.motor.time_s() - stopped_s, 2.0);
    EXPECT_LE(drive.motor.time_s() - stopped_s, 2.1);
}

// Covers: RT-01
TEST(LettingGo, TheDefaultRestOfFourMinutesIsKeptByTheWholeController) {
    Drive drive;
    drive.motor.connected = false;
    ASSERT_TRUE(drive.run_until(State::backing_off, 1.0));
    // From here on only frames pass, at the same line: quicker than the synthetic motor.
    SensorFrame frame = drive.motor.sense();
    int ticks = 0;
    while (drive.controller.telemetry().state == State::backing_off) {
        ASSERT_TRUE(all_off(drive.controller.step(frame)));
        ++ticks;
    }
    EXPECT_EQ(ticks, 240 * ticks_per_second + 500);
    EXPECT_EQ(drive.state(), State::listening);
}

// Covers: RT-03
TEST(LettingGo, ALockOutEndsOnlyAfterTheCallHasBeenAwayLongEnough) {
    Drive drive(short_rests());
    drive.motor.rotor = Rotor::stuck;
    ASSERT_TRUE(drive.run_until(State::locked_out, 20.0));
    drive.motor.call = false;
    drive.run_for(3.9);
    EXPECT_EQ(drive.state(), State::locked_out);
    drive.motor.call = true;
    drive.run_for(1.0);
    EXPECT_EQ(drive.state(), State::locked_out);
    drive.motor.call = false;
    drive.run_for(4.01);
    EXPECT_EQ(drive.state(), State::resting);
    drive.motor.rotor = Rotor::comes_up;
    drive.motor.call = true;
    EXPECT_TRUE(drive.run_until(State::running, 2.0));
}

// Covers: RT-04
TEST(LettingGo, AGoodRunForgetsTheFailedTries) {
    Settings settings = short_rests();
    settings.run_clears_tries_s = 1;
    Drive drive(settings);
    drive.motor.rotor = Rotor::stuck;
    ASSERT_TRUE(drive.run_until(State::backing_off, 5.0));
    drive.motor.rotor = Rotor::comes_up;
    ASSERT_TRUE(drive.run_until(State::running, 5.0));
    EXPECT_EQ(drive.controller.telemetry().tries_made, 2);
    drive.run_for(1.01);
    EXPECT_EQ(drive.controller.telemetry().tries_made, 0);
}

// Covers: HO-01
TEST(LettingGo, TheStartCapacitorNeverStaysInLongerThanItsLimit) {
    Settings settings;
    settings.stage_count = 2;
    settings.stages[0].dwell_ms = 2000;
    settings.stages[1].dwell_ms = 2000;
    settings.climb_limit_ms = 2500;
    settings.start_capacitor_limit_ms = 900;
    Drive drive(settings);
    drive.motor.rotor = Rotor::stuck;
    double ordered_s = 0.0;
    double in_s = 0.0;
    while (drive.motor.time_s() < 3.0) {
        ordered_s += drive.tick().start_capacitor_contact * 1e-4;
        in_s += drive.motor.start_capacitor_in() ? 1e-4 : 0.0;
    }
    EXPECT_EQ(drive.reason(), Reason::start_capacitor_limit);
    EXPECT_NEAR(ordered_s, 0.880, 0.0002);
    EXPECT_LT(in_s, 0.9);
}

// Covers: CL-03
TEST(LettingGo, TheClimbAsAWholeIsLimited) {
    Settings settings;
    settings.climb_limit_ms = 500;
    Drive drive(settings);
    drive.motor.rotor = Rotor::stuck;
    ASSERT_TRUE(drive.run_until(State::backing_off, 2.0));
    EXPECT_EQ(drive.reason(), Reason::climb_too_long);
    EXPECT_NEAR(drive.first_time_in(State::backing_off) - drive.first_time_in(State::climbing), 0.5,
                0.0002);
}

// Covers: HO-07
TEST(LettingGo, ARotorThatStopsAtThreeQuartersIsLetGoOnTheFullLine) {
    Drive drive;
    drive.motor.rotor = Rotor::stalls_at_three_quarters;
    drive.motor.run_up_s = 0.5;
    ASSERT_TRUE(drive.run_until(State::backing_off, 3.0));
    EXPECT_TRUE(drive.reason() == Reason::not_up_on_full_line ||
                drive.reason() == Reason::climb_too_long)
        << name_of(drive.reason());
}

// Covers: RN-01
TEST(LettingGo, AStallAfterTheHandOverOpensTheBypass) {
    Drive drive;
    ASSERT_TRUE(drive.run_until(State::running, 2.0));
    drive.run_for(0.5);
    drive.motor.rotor = Rotor::stuck;
    ASSERT_TRUE(drive.run_until(State::backing_off, 2.0));
    EXPECT_EQ(drive.reason(), Reason::stalled);
    drive.run_for(0.02);
    EXPECT_FALSE(drive.motor.bypass_in());
}

// Covers: RN-03
TEST(LettingGo, ALostCurrentOpensTheBypassLestTheMotorComeBackDirectly) {
    Drive drive;
    ASSERT_TRUE(drive.run_until(State::running, 2.0));
    drive.run_for(0.5);
    drive.motor.connected = false;
    ASSERT_TRUE(drive.run_until(State::backing_off, 0.5));
    EXPECT_EQ(drive.reason(), Reason::current_lost);
}

// Covers: LW-03, LW-05, LW-06
TEST(LettingGo, ABadLineWhileFeedingLetsTheMotorGo) {
    struct Bad {
        double voltage;
        double frequency;
        Reason reason;
        double within_s;
    };
    for (const State state :
         {State::probing, State::climbing, State::handing_over, State::running}) {
        for (const Bad& bad : {Bad{140.0, 60.0, Reason::line_sagged, 0.06},
                               Bad{290.0, 60.0, Reason::line_voltage_high, 0.06},
                               Bad{0.0, 60.0, Reason::line_sagged, 0.06}}) {
            Drive drive;
            ASSERT_TRUE(drive.run_until(state, 2.0));
            drive.motor.line_voltage_rms_V = bad.voltage;
            ASSERT_TRUE(drive.run_until(State::backing_off, bad.within_s))
                << name_of(state) << " " << bad.voltage;
            EXPECT_EQ(drive.reason(), bad.reason) << name_of(drive.reason());
        }
    }
}

// Covers: LW-05
TEST(LettingGo, AShortSagIsBorne) {
    Drive drive;
    ASSERT_TRUE(drive.run_until(State::running, 2.0));
    drive.run_for(0.2);
    drive.motor.line_voltage_rms_V = 130.0;
    drive.run_for(0.015);
    drive.motor.line_voltage_rms_V = 230.0;
    drive.run_for(0.5);
    EXPECT_EQ(drive.state(), State::running);
}

// Covers: CT-07
TEST(LettingGo, SettingsThatAreRefusedNeverFeedTheMotor) {
    Settings settings;
    settings.tries = 0;
    Drive drive(settings);
    for (int i = 0; i < 20000; ++i) {
        ASSERT_TRUE(all_off(drive.tick()));
    }
    EXPECT_EQ(drive.state(), State::locked_out);
    EXPECT_EQ(drive.reason(), Reason::settings_refused);
    drive.motor.call = false;
    drive.run_for(0.1);
    EXPECT_EQ(drive.state(), State::locked_out);
}

}  // namespace
