#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <vector>

#include "bench_signals/drive.hpp"
#include "memory/flash.hpp"

namespace {

using namespace firmware;
using bench_signals::Drive;

std::vector<State> states_of(const Drive& drive) {
    std::vector<State> states;
    for (const bench_signals::Entry& entry : drive.history) {
        states.push_back(entry.state);
    }
    return states;
}

// Covers: IN-12
TEST(Starts, AnEasyMotorIsRunningWithinASecondAndABitOn50And60Hertz) {
    for (const double frequency : {50.0, 60.0}) {
        for (const double phase : {0.0, 77.0, 200.0, 300.0}) {
            Drive drive({}, phase);
            drive.motor.frequency_Hz = frequency;
            drive.motor.run_up_s = 0.5;
            ASSERT_TRUE(drive.run_until(State::running, 1.2)) << frequency << " " << phase;
            const std::vector<State> expected = {State::listening, State::probing, State::climbing,
                                                 State::handing_over, State::running};
            EXPECT_EQ(states_of(drive), expected);
            EXPECT_LE(drive.first_time_in(State::probing), 0.1);
            EXPECT_LE(drive.first_time_in(State::climbing) - drive.first_time_in(State::probing),
                      0.135);
            EXPECT_GT(drive.motor.speed(), 0.95);
            drive.run_for(1.0);
            EXPECT_EQ(drive.state(), State::running);
            EXPECT_TRUE(drive.motor.bypass_in());
            EXPECT_FALSE(drive.motor.start_capacitor_in());
        }
    }
}

// Covers: IN-10
TEST(Starts, ProbingEstimatesTheLockedRotorCurrentWithinFivePercent) {
    for (const double locked_rotor : {15.0, 40.0, 80.0, 140.0}) {
        for (const double frequency : {50.0, 60.0}) {
            Drive drive;
            drive.motor.locked_rotor_A = locked_rotor;
            drive.motor.frequency_Hz = frequency;
            ASSERT_TRUE(drive.run_until(State::climbing, 0.5));
            const double estimate = drive.controller.telemetry().locked_rotor_estimate_mA * 1e-3;
            EXPECT_NEAR(estimate / locked_rotor, 1.0, 0.05) << locked_rotor << " " << frequency;
        }
    }
}

// Covers: GT-05
TEST(Starts, ProbingPulsesFireAtTheirAngleOfTheTrueLine) {
    for (const double frequency : {50.0, 60.0}) {
        // A store in use: a fresh one is erased first, and the line sought anew behind that.
        memory_test::Flash flash;
        Journal journal(flash.pages());
        memory_test::save_whole(journal, flash, Payload{});
        Drive drive({}, 33.0, flash.pages());
        drive.motor.frequency_Hz = frequency;
        drive.motor.run_up_s = 1.0;
        // A tracker that has had time to settle: the call comes late.
        drive.motor.call = false;
        drive.run_for(0.5);
        drive.motor.call = true;
        ASSERT_TRUE(drive.run_until(State::probing, 0.1));
        bool lit = false;
        int edges = 0;
        while (drive.state() == State::probing) {
            const double phase_deg = drive.motor.line_phase_deg();
            const ActuatorFrame frame = drive.tick();
            const bool pulse = frame.gate_off_us > frame.gate_on_us;
            if (pulse && !lit && drive.state() == State::probing) {
                const double at_deg =
                    phase_deg + 360.0 * frequency * (100.0 + frame.gate_on_us) * 1e-6;
                EXPECT_NEAR(std::fmod(at_deg, 180.0), 122.0, 0.2);
                ++edges;
            }
            lit = pulse && frame.gate_off_us == 100;
        }
        EXPECT_EQ(edges, 4);
    }
}

// Covers: CT-02
TEST(Starts, TheStartCapacitorIsInOnlyWhileClimbingAndNeverTogetherWithTheBypass) {
    Drive drive;
    for (int i = 0; i < 30000; ++i) {
        const ActuatorFrame frame = drive.tick();
        EXPECT_FALSE(frame.start_capacitor_contact == 1 && frame.bypass_contact == 1);
        EXPECT_FALSE(drive.motor.start_capacitor_in() && drive.motor.bypass_in());
        if (drive.state() == State::running || drive.state() == State::handing_over) {
            EXPECT_EQ(frame.start_capacitor_contact, 0);
        }
    }
    EXPECT_EQ(drive.state(), State::running);
}

// Covers: HO-04
TEST(Starts, TheGateStaysOnUntilTheBypassHasClosedAndThenGoesDark) {
    Drive drive;
    bool bypass_ordered = false;
    while (drive.motor.time_s() < 3.0 && drive.state() != State::running) {
        const ActuatorFrame frame = drive.tick();
        bypass_ordered |= frame.bypass_contact == 1;
        if (bypass_ordered && drive.state() == State::handing_over) {
            EXPECT_GT(drive.controller.telemetry().firing_angle_mdeg, 0);
        }
    }
    ASSERT_EQ(drive.state(), State::running);
    EXPECT_TRUE(drive.motor.bypass_in());
    for (int i = 0; i < 10000; ++i) {
        const ActuatorFrame frame = drive.tick();
        ASSERT_EQ(frame.gate_on_us, frame.gate_off_us);
    }
}

// Covers: HO-02
TEST(Starts, TheBypassNeverClosesOnARotorBelow85Percent) {
    for (const bench_signals::Rotor rotor :
         {bench_signals::Rotor::stuck, bench_signals::Rotor::stalls_at_three_quarters}) {
        for (const double run_up : {0.3, 1.0}) {
            Drive drive;
            drive.motor.rotor = rotor;
            drive.motor.run_up_s = run_up;
            for (int i = 0; i < 40000; ++i) {
                ASSERT_EQ(drive.tick().bypass_contact, 0);
            }
            EXPECT_EQ(drive.state(), State::backing_off);
        }
    }
}

// Covers: LW-02
TEST(Starts, NothingIsFedBeforeTheLineIsTracked) {
    Drive drive;
    for (int i = 0; i < 2000; ++i) {
        const ActuatorFrame frame = drive.tick();
        if (drive.controller.telemetry().line_locked != 0) {
            return;
        }
        ASSERT_TRUE(bench_signals::all_off(frame));
    }
    FAIL() << "no lock within 0.2 s";
}

// Covers: LW-03
TEST(Starts, ALineOutsideItsLimitsIsWaitedFor) {
    struct Bad {
        double voltage;
        double frequency;
        Reason reason;
    };
    for (const Bad& bad :
         {Bad{80.0, 60.0, Reason::line_voltage_low}, Bad{280.0, 60.0, Reason::line_voltage_high},
          Bad{230.0, 43.8, Reason::line_frequency_off},
          Bad{230.0, 66.0, Reason::line_frequency_off}, Bad{0.0, 60.0, Reason::no_lock}}) {
        Drive drive;
        drive.motor.line_voltage_rms_V = bad.voltage;
        drive.motor.frequency_Hz = bad.frequency;
        for (int i = 0; i < 20000; ++i) {
            ASSERT_TRUE(bench_signals::all_off(drive.tick())) << bad.voltage;
        }
        EXPECT_EQ(drive.state(), State::listening);
        EXPECT_EQ(drive.reason(), bad.reason) << bad.voltage << " " << bad.frequency;
    }
}

TEST(Starts, TelemetryTellsWhatIsMeasured) {
    Drive drive;
    ASSERT_TRUE(drive.run_until(State::running, 2.0));
    drive.run_for(0.5);
    const Telemetry& told = drive.controller.telemetry();
    EXPECT_NEAR(told.line_voltage_rms_mV, 230000, 1500);
    EXPECT_NEAR(told.line_frequency_mHz, 60000, 20);
    EXPECT_NEAR(told.start_terminal_voltage_rms_mV, 1.145 * 230000, 4000);
    EXPECT_NEAR(told.output_current_rms_mA, 0.117 * 80000, 1000);
    EXPECT_EQ(told.line_locked, 1);
    EXPECT_EQ(told.firing_angle_mdeg, 0);
    const double tracked_deg = told.line_phase / 4294967296.0 * 360.0;
    // The motor has moved on by one tick since the samples.
    const double true_deg = drive.motor.line_phase_deg() - 360.0 * 60.0 * 1e-4;
    EXPECT_NEAR(std::remainder(tracked_deg - true_deg, 360.0), 0.0, 0.1);
}

// Covers: CT-06
TEST(Starts, TheStatusWordCarriesStateAndReason) {
    Drive drive;
    for (int i = 0; i < 20000; ++i) {
        const ActuatorFrame frame = drive.tick();
        ASSERT_EQ(frame.status & 0xFF, static_cast<int>(drive.state()));
        ASSERT_EQ(frame.status >> 8, static_cast<int>(drive.reason()));
    }
}

}  // namespace
