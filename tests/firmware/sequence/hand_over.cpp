#include "firmware/sequence/hand_over.hpp"

#include <gtest/gtest.h>

#include "measurement/readings_of.hpp"

namespace {

using namespace firmware;

// Readings on a 230 V line: S voltage and output current as a motor would give them.
Observation seen(double start_terminal_per_line, double output_A) {
    Observation observation;
    observation.call = true;
    observation.line_locked = true;
    observation.readings =
        measurement_test::readings_of(static_cast<std::int32_t>(start_terminal_per_line * 230000),
                                      static_cast<std::int32_t>(output_A * 1000), 230000);
    return observation;
}

class HandOverTest : public ::testing::Test {
  protected:
    HandOverTest() {
        orders.contactor_permit = true;
        orders.start_capacitor = true;
        orders.fire_at(MilliDegrees{100000});
        hand_over.begin(MilliAmperes{80000}, orders);
    }

    // One tick in which every 83rd begins a half cycle; `alternation` swings the current.
    Progress tick(Observation observation, double alternation_A = 0.0) {
        observation.readings_are_new = ++ticks % 83 == 0;
        const double sign = (ticks / 83) % 2 == 0 ? 1.0 : -1.0;
        observation.readings.output_current_rms +=
            MilliAmperes{static_cast<std::int32_t>(sign * alternation_A * 1000)};
        const Progress progress = hand_over.step(observation, orders);
        bypass_ordered |= orders.bypass;
        return progress;
    }

    Progress run(const Observation& observation, double alternation_A = 0.0) {
        for (int i = 0; i < 20000; ++i) {
            const Progress progress = tick(observation, alternation_A);
            if (progress.kind != Progress::Kind::going) {
                return progress;
            }
        }
        ADD_FAILURE() << "neither finished nor failed within two seconds";
        return Progress::going();
    }

    HandOver hand_over{Settings{}};
    Orders orders;
    int ticks = 0;
    bool bypass_ordered = false;
};

TEST_F(HandOverTest, AMotorAtSpeedIsHandedOverAndTheGatesGoDark) {
    EXPECT_FALSE(orders.start_capacitor);
    const Progress progress = run(seen(1.1, 16.0));
    EXPECT_EQ(progress.kind, Progress::Kind::finished);
    EXPECT_TRUE(orders.bypass);
    EXPECT_FALSE(orders.gated);
    EXPECT_LT(ticks, 2000);
}

TEST_F(HandOverTest, TheSweepGoesSteadilyToFullConduction) {
    std::int32_t last = orders.firing_angle.count();
    int steps = 0;
    while (!orders.bypass) {
        tick(seen(1.1, 16.0));
        const std::int32_t now = orders.firing_angle.count();
        EXPECT_LE(now, last);
        EXPECT_GE(now, last - 23000);
        steps += now < last ? 1 : 0;
        last = now;
    }
    EXPECT_EQ(last, Settings{}.full_conduction_angle_mdeg);
    EXPECT_EQ(steps, Settings{}.sweep_half_cycles);
}

// Covers: HO-02
TEST_F(HandOverTest, TooMuchCurrentKeepsTheBypassOpenWhateverTheVoltageAtS) {
    const Progress progress = run(seen(1.2, 29.0));
    EXPECT_EQ(progress.kind, Progress::Kind::failed);
    EXPECT_EQ(progress.reason, Reason::not_up_on_full_line);
    EXPECT_FALSE(bypass_ordered);
}

// Covers: HO-02
TEST_F(HandOverTest, TooLittleVoltageAtSKeepsTheBypassOpenWhateverTheCurrent) {
    const Progress progress = run(seen(0.88, 10.0));
    EXPECT_EQ(progress.kind, Progress::Kind::failed);
    EXPECT_FALSE(bypass_ordered);
}

TEST_F(HandOverTest, ARotorThatSwingsALittleIsUpWhateverItsCurrentDoesBelowTheLimit) {
    double level = 1.0;
    Progress progress = Progress::going();
    while (progress.kind == Progress::Kind::going) {
        if (ticks % 83 == 82) {
            level = level > 1.05 ? 1.0 : 1.1;
        }
        progress = tick(seen(level, level > 1.05 ? 4.0 : 20.0));
    }
    EXPECT_EQ(progress.kind, Progress::Kind::finished);
    EXPECT_TRUE(bypass_ordered);
}

TEST_F(HandOverTest, ARotorThatSwingsWidelyIsGivenTimeToCalmDown) {
    double level = 1.0;
    Progress progress = Progress::going();
    while (progress.kind == Progress::Kind::going) {
        if (ticks % 83 == 82) {
            // A swing of a quarter that dies out after 500 ms, longer than the wait for any sign.
            level = level > 1.05 || ticks > 5000 ? 1.0 : 1.3;
        }
        progress = tick(seen(level, 16.0));
        EXPECT_TRUE(ticks > 5000 || !orders.bypass);
    }
    EXPECT_EQ(progress.kind, Progress::Kind::finished);
}

// Covers: HO-07
TEST_F(HandOverTest, ARotorThatNeverCalmsDownIsLetGo) {
    double level = 1.0;
    Progress progress = Progress::going();
    while (progress.kind == Progress::Kind::going) {
        if (ticks % 83 == 82) {
            level = level > 1.05 ? 1.0 : 1.3;
        }
        progress = tick(seen(level, 16.0));
    }
    EXPECT_EQ(progress.kind, Progress::Kind::failed);
    EXPECT_FALSE(bypass_ordered);
}

// Covers: HO-02
TEST_F(HandOverTest, ASwingAboveTheLimitBeginsTheConfirmationAgain) {
    // One half cycle in five above 35 % of 80 A: never six in a row below.
    Progress progress = Progress::going();
    while (progress.kind == Progress::Kind::going) {
        const bool high = (ticks / 83) % 5 == 0;
        progress = tick(seen(1.1, high ? 29.0 : 10.0));
    }
    EXPECT_EQ(progress.kind, Progress::Kind::failed);
    EXPECT_FALSE(bypass_ordered);
}

// Covers: HO-06
TEST_F(HandOverTest, AVoltageAtSBeyondAnyRunsMeansThatTheStartCapacitorIsStillIn) {
    const Progress progress = run(seen(1.71, 16.0));
    EXPECT_EQ(progress.kind, Progress::Kind::failed);
    EXPECT_EQ(progress.reason, Reason::start_capacitor_stuck_in);
    EXPECT_FALSE(bypass_ordered);
    EXPECT_LT(ticks, 2500);
}

// Covers: HO-06
TEST_F(HandOverTest, HoweverShortTheConfirmationNoBypassJoinsAStartCapacitor) {
    Settings hasty;
    hasty.confirm_half_cycles = 4;
    hasty.fault_half_cycles = 20;
    hand_over = HandOver{hasty};
    hand_over.begin(MilliAmperes{80000}, orders);
    EXPECT_EQ(run(seen(1.71, 16.0)).reason, Reason::start_capacitor_stuck_in);
    EXPECT_FALSE(bypass_ordered);
}

// Covers: HO-05
TEST_F(HandOverTest, TheBypassIsCalledBackWhenTheMotorShowsTroubleWhileItTravels) {
    Observation slow = seen(0.85, 16.0);
    slow.readings_are_new = true;
    Observation strong = seen(1.1, 29.0);
    strong.readings_are_new = true;
    Observation peak = seen(1.1, 16.0);
    peak.output_current_now = MilliAmperes{49561};  // 1.77 times 35 % of 80 A
    Observation sag = seen(1.1, 16.0);
    sag.readings_are_new = true;
    sag.readings.line_voltage_rms = MilliVolts{211000};
    sag.readings.start_terminal_voltage_rms = MilliVolts{232000};
    sag.readings.relate_to_line();
    Observation swell = sag;
    swell.readings.line_voltage_rms = MilliVolts{249000};
    swell.readings.start_terminal_voltage_rms = MilliVolts{274000};
    swell.readings.relate_to_line();
    for (const Observation& trouble : {slow, strong, peak, sag, swell}) {
        orders.fire_at(MilliDegrees{100000});
        hand_over.begin(MilliAmperes{80000}, orders);
        while (!orders.bypass) {
            ASSERT_EQ(tick(seen(1.1, 16.0)).kind, Progress::Kind::going);
        }
        EXPECT_EQ(hand_over.step(trouble, orders).kind, Progress::Kind::going);
        EXPECT_FALSE(orders.bypass);
        EXPECT_TRUE(orders.gated);
        // Once the trouble is over it is confirmed anew.
        EXPECT_EQ(run(seen(1.1, 16.0)).kind, Progress::Kind::finished);
        orders.bypass = false;
    }
}

TEST_F(HandOverTest, WhatIsInOrderWhileTheBypassTravelsDoesNotCallItBack) {
    while (!orders.bypass) {
        tick(seen(1.1, 16.0));
    }
    Observation fair = seen(1.1, 27.9);
    fair.readings_are_new = true;
    fair.output_current_now = MilliAmperes{49560};
    fair.readings.line_voltage_rms = MilliVolts{240000};
    fair.readings.relate_to_line();
    EXPECT_EQ(hand_over.step(fair, orders).kind, Progress::Kind::going);
    EXPECT_TRUE(orders.bypass);
}

TEST_F(HandOverTest, CallingBackAgainAndAgainEndsWithTheSwingsLimit) {
    int half = 0;
    Progress progress = Progress::going();
    while (progress.kind == Progress::Kind::going && ticks < 30000) {
        Observation observation = seen(1.1, 16.0);
        observation.output_current_now = MilliAmperes{orders.bypass ? 60000 : 0};
        progress = tick(observation);
        half = ticks / 83;
    }
    EXPECT_EQ(progress.kind, Progress::Kind::failed);
    EXPECT_EQ(progress.reason, Reason::not_up_on_full_line);
    EXPECT_LT(half, 150);
}

// Covers: HO-03
TEST_F(HandOverTest, TheBypassWaitsForTheStartCapacitorsContact) {
    Settings slow_contact;
    slow_contact.start_capacitor_release_ms = 200;
    HandOver patient{slow_contact};
    patient.begin(MilliAmperes{80000}, orders);
    int ordered_at = 0;
    for (int i = 1; i < 3000 && ordered_at == 0; ++i) {
        Observation observation = seen(1.1, 16.0);
        observation.readings_are_new = i % 83 == 0;
        patient.step(observation, orders);
        ordered_at = orders.bypass ? i : 0;
    }
    EXPECT_GE(ordered_at, 2000);
    EXPECT_LE(ordered_at, 2000 + 83);
}

}  // namespace
