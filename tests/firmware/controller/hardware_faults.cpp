// Hardware that is broken from the beginning, or breaks in the middle: what the whole controller
// makes of it. What the plant makes of it is tested with the bench (tests/sim).
#include <gtest/gtest.h>

#include <functional>
#include <string>
#include <vector>

#include "bench_signals/drive.hpp"

namespace {

using namespace firmware;
using bench_signals::all_off;
using bench_signals::Broken;
using bench_signals::Drive;
using bench_signals::Rotor;

// Until the controller has let go after having fed the motor; false if it does not.
bool lets_go(Drive& drive, double within_s) {
    const double end_s = drive.motor.time_s() + within_s;
    while (drive.motor.time_s() < end_s) {
        const bool fed = feeds_motor(drive.state());
        drive.tick();
        if (fed && !feeds_motor(drive.state())) {
            return true;
        }
    }
    return false;
}

struct Expected {
    const char* what;
    Broken broken;
    State state;
    Reason reason;
    double fed_at_most_s;  // from the permit to letting go
};

Broken with(const std::function<void(Broken&)>& spoil) {
    Broken broken;
    spoil(broken);
    return broken;
}

// Covers: IN-01, IN-02, IN-03, IN-04, IN-05, IN-06, IN-07, IN-08, IN-10
TEST(HardwareFaults, ThatAreThereBeforeTheStartAreNamedBeforeTheRotorIsAskedToTurn) {
    const std::vector<Expected> all = {
        {"bypass welded", with([](Broken& b) { b.bypass_welded = true; }), State::locked_out,
         Reason::output_conducts, 0.075},
        {"shorted thyristor, positive", with([](Broken& b) { b.shorted_thyristor = 1; }),
         State::locked_out, Reason::thyristor_shorted, 0.075},
        {"shorted thyristor, negative", with([](Broken& b) { b.shorted_thyristor = -1; }),
         State::locked_out, Reason::thyristor_shorted, 0.075},
        {"start contact stuck in", with([](Broken& b) { b.start_contact_stuck_in = true; }),
         State::locked_out, Reason::start_capacitor_stuck_in, 0.075},
        {"run capacitor shorted", with([](Broken& b) { b.run_capacitor_shorted = true; }),
         State::locked_out, Reason::run_capacitor_shorted, 0.115},
        {"dead thyristor, positive", with([](Broken& b) { b.dead_thyristor = 1; }),
         State::backing_off, Reason::half_waves_unequal, 0.085},
        {"dead thyristor, negative", with([](Broken& b) { b.dead_thyristor = -1; }),
         State::backing_off, Reason::half_waves_unequal, 0.085},
        {"run capacitor open", with([](Broken& b) { b.run_capacitor_open = true; }),
         State::backing_off, Reason::run_capacitor_open, 0.130},
        {"S sensor stuck at its zero", with([](Broken& b) { b.start_terminal_counts = 2048; }),
         State::backing_off, Reason::start_terminal_dead, 0.130},
        {"current sensor stuck at its zero",
         with([](Broken& b) { b.output_current_counts = 2048; }), State::backing_off,
         Reason::no_motor, 0.085},
    };
    for (const Expected& one : all) {
        for (const double frequency : {50.0, 60.0}) {
            Drive drive({}, 40.0);
            drive.motor.frequency_Hz = frequency;
            drive.motor.broken = one.broken;
            ASSERT_TRUE(lets_go(drive, 1.0)) << one.what;
            EXPECT_EQ(drive.state(), one.state) << one.what;
            EXPECT_EQ(drive.reason(), one.reason) << one.what << " " << name_of(drive.reason());
            EXPECT_EQ(drive.first_time_in(State::climbing), -1.0) << one.what;
            EXPECT_LE(drive.motor.time_s() - drive.first_time_in(State::probing), one.fed_at_most_s)
                << one.what << " " << frequency;
        }
    }
}

// Covers: IN-09
TEST(HardwareFaults, SwappedWindingsAreFoundByTheStartCapacitorsCurrent) {
    Drive drive;
    drive.motor.start_capacitor_siemens = 0.14;
    ASSERT_TRUE(lets_go(drive, 1.0));
    EXPECT_EQ(drive.state(), State::locked_out);
    EXPECT_EQ(drive.reason(), Reason::windings_swapped);
    EXPECT_EQ(drive.first_time_in(State::climbing), -1.0);
}

// Covers: LW-10
TEST(HardwareFaults, ASensorThatIsStuckOffItsZeroKeepsEverythingOff) {
    for (const int counts : {0, 1900, 2200, 4095}) {
        for (const bool current : {true, false}) {
            Drive drive;
            auto& stuck = current ? drive.motor.broken.output_current_counts
                                  : drive.motor.broken.start_terminal_counts;
            stuck = static_cast<std::uint16_t>(counts);
            for (int i = 0; i < 10000; ++i) {
                ASSERT_TRUE(all_off(drive.tick())) << counts;
            }
            EXPECT_EQ(drive.state(), State::listening);
            EXPECT_EQ(drive.reason(), Reason::sensor_off_zero) << counts;
        }
    }
}

// A short upset inside the window of a look. (Not of the bypass: its current flows on to its zero,
// into the second look.)
// Covers: IN-01, IN-04, IN-09
TEST(HardwareFaults, WhatIsGoneWhenLookedAtAgainLocksNothingOut) {
    const std::vector<Broken> all = {with([](Broken& b) { b.shorted_thyristor = 1; }),
                                     with([](Broken& b) { b.start_contact_stuck_in = true; }),
                                     with([](Broken& b) { b.run_capacitor_shorted = true; }),
                                     with([](Broken& b) { b.start_terminal_counts = 2048; })};
    for (std::size_t fault = 0; fault < all.size(); ++fault) {
        for (int begins_ms = 0; begins_ms < 110; begins_ms += 2) {
            Drive drive;
            ASSERT_TRUE(drive.run_until(State::probing, 0.5));
            drive.run_for(0.001 * begins_ms);
            drive.motor.broken = all[fault];
            drive.run_for(0.008);
            drive.motor.broken = Broken{};
            drive.run_for(0.2);
            EXPECT_NE(drive.state(), State::locked_out)
                << fault << " at " << begins_ms << " ms: " << name_of(drive.reason());
        }
    }
}

// Covers: RT-06
TEST(HardwareFaults, ThatOnlyGetWorseAreNotTriedAgainUntilSomebodyHasBeenThere) {
    Settings settings;
    settings.rest_before_retry_s = 1;
    settings.lockout_clear_s = 3;
    Drive drive(settings);
    drive.motor.broken.bypass_welded = true;
    ASSERT_TRUE(lets_go(drive, 1.0));
    for (int i = 0; i < 50000; ++i) {
        ASSERT_TRUE(all_off(drive.tick()));
    }
    drive.motor.call = false;
    drive.run_for(3.1);
    EXPECT_EQ(drive.state(), State::resting);
    drive.motor.broken = Broken{};
    drive.motor.call = true;
    EXPECT_TRUE(drive.run_until(State::running, 2.0));
}

// Covers: IN-11
TEST(HardwareFaults, WithoutAStartCapacitorTheStartGoesOnAndSaysSo) {
    Drive drive;
    drive.motor.broken.start_contact_stuck_out = true;
    ASSERT_TRUE(drive.run_until(State::climbing, 0.5));
    EXPECT_EQ(drive.controller.telemetry().start_capacitor_absent, 1);
    // The rotor does not come up without it: that is then the reason, and not the stages.
    ASSERT_TRUE(drive.run_until(State::backing_off, 2.5));
    EXPECT_EQ(drive.reason(), Reason::start_capacitor_absent);
    Drive sound;
    ASSERT_TRUE(sound.run_until(State::climbing, 0.5));
    EXPECT_EQ(sound.controller.telemetry().start_capacitor_absent, 0);
}

// Covers: IN-07
TEST(HardwareFaults, AMotorThatHasNoRunCapacitorIsStartedWhenTheSettingsSaySo) {
    Settings settings;
    settings.run_capacitor_fitted = 0;
    Drive drive(settings);
    drive.motor.broken.run_capacitor_open = true;
    EXPECT_TRUE(drive.run_until(State::climbing, 0.5));
}

// Covers: CL-05, CL-06, CL-07
TEST(HardwareFaults, ThatComeInTheClimbEndItWithinTenHalfCycles) {
    struct Late {
        const char* what;
        Broken broken;
        std::vector<Reason> reasons;
    };
    const std::vector<Late> all = {
        {"dead thyristor",
         with([](Broken& b) { b.dead_thyristor = 1; }),
         {Reason::half_waves_unequal}},
        {"shorted thyristor",
         with([](Broken& b) { b.shorted_thyristor = -1; }),
         {Reason::half_waves_unequal}},
        {"bypass welded",
         with([](Broken& b) { b.bypass_welded = true; }),
         {Reason::current_beyond_order}},
        {"current sensor",
         with([](Broken& b) { b.output_current_counts = 2100; }),
         {Reason::current_lost}},
        {"S sensor",
         with([](Broken& b) { b.start_terminal_counts = 2300; }),
         {Reason::start_terminal_dead}},
        {"line sensor",
         with([](Broken& b) { b.line_voltage_counts = 2300; }),
         {Reason::line_lost, Reason::line_sagged}},
    };
    for (const Late& one : all) {
        for (int later = 0; later < 20; ++later) {
            Drive drive;
            drive.motor.rotor = Rotor::stuck;
            ASSERT_TRUE(drive.run_until(State::climbing, 1.0));
            drive.run_for(0.05 + later * 0.0037);
            drive.motor.broken = one.broken;
            const double broken_at_s = drive.motor.time_s();
            ASSERT_TRUE(lets_go(drive, 1.0)) << one.what;
            EXPECT_LE(drive.motor.time_s() - broken_at_s, 10 / 120.0) << one.what;
            bool expected = false;
            for (const Reason reason : one.reasons) {
                expected |= drive.reason() == reason;
            }
            EXPECT_TRUE(expected) << one.what << ": " << name_of(drive.reason());
        }
    }
}

// Covers: CL-07
TEST(HardwareFaults, AMotorThatIsTakenAwayInTheClimbIsLetGo) {
    Drive drive;
    ASSERT_TRUE(drive.run_until(State::climbing, 1.0));
    drive.run_for(0.1);
    drive.motor.connected = false;
    ASSERT_TRUE(lets_go(drive, 0.1));
    EXPECT_EQ(drive.reason(), Reason::current_lost);
}

// Covers: HO-06
TEST(HardwareFaults, AStartCapacitorThatStaysInIsLetGoWithinAQuarterSecondOfItsOrder) {
    Drive drive;
    ASSERT_TRUE(drive.run_until(State::handing_over, 2.0));
    // Resonance: far above what any motor shows with its start capacitor out.
    drive.motor.broken.start_contact_stuck_in = true;
    drive.motor.resonance = 1.8;
    ASSERT_TRUE(lets_go(drive, 0.25));
    EXPECT_EQ(drive.state(), State::locked_out);
    EXPECT_EQ(drive.reason(), Reason::start_capacitor_stuck_in);
    EXPECT_FALSE(drive.motor.bypass_in());
}

// Covers: RN-03
TEST(HardwareFaults, ABypassThatDoesNotCloseIsNoticedByTheMissingCurrent) {
    Drive drive;
    drive.motor.broken.bypass_stuck_open = true;
    ASSERT_TRUE(drive.run_until(State::running, 2.0));
    const double gates_off_s = drive.motor.time_s();
    ASSERT_TRUE(lets_go(drive, 0.5));
    EXPECT_EQ(drive.reason(), Reason::current_lost);
    EXPECT_LE(drive.motor.time_s() - gates_off_s, 0.34);
}

}  // namespace
