#include "firmware/recognition/run_up.hpp"

#include <gtest/gtest.h>

#include "measurement/readings_of.hpp"

namespace {

using namespace firmware;
using measurement_test::readings_of;

void stand(RunUp& run_up, int half_cycles) {
    for (int i = 0; i < half_cycles; ++i) {
        run_up.observe(readings_of(74000, 30000, 230000));
    }
}

TEST(RunUp, AStandingRotorIsNotTurning) {
    RunUp run_up{Settings{}};
    run_up.begin();
    stand(run_up, 100);
    EXPECT_FALSE(run_up.turning());
    EXPECT_FALSE(run_up.accelerating());
    EXPECT_TRUE(run_up.settled());
    EXPECT_FALSE(run_up.near_speed());
    EXPECT_FALSE(run_up.up());
    EXPECT_EQ(run_up.rise().count(), 1000);
}

// S voltages of a typical motor at slips 1.0, 0.6, 0.4, 0.3, 0.2, 0.15, 0.1 (phasor solution).
TEST(RunUp, FollowsAMotorFromStandstillToSpeed) {
    RunUp run_up{Settings{}};
    run_up.begin();
    stand(run_up, 12);
    bool turned_before_it_was_up = false;
    for (const std::int32_t voltage : {79000, 94000, 111000, 138000, 159000, 186000}) {
        for (int i = 0; i < 3; ++i) {
            run_up.observe(readings_of(voltage, 25000, 230000));
            turned_before_it_was_up |= run_up.turning() && !run_up.up();
        }
        if (voltage >= 94000 && voltage <= 159000) {
            EXPECT_TRUE(run_up.accelerating()) << voltage;
        }
        if (voltage < 138000) {
            EXPECT_FALSE(run_up.up()) << voltage;
        }
    }
    EXPECT_TRUE(turned_before_it_was_up);
    EXPECT_TRUE(run_up.up());
}

TEST(RunUp, ARotorThatSettlesAtTwelvePercentSlipIsUp) {
    RunUp run_up{Settings{}};
    run_up.begin();
    stand(run_up, 12);
    for (int i = 0; i < 10; ++i) {
        run_up.observe(readings_of(74000 + 5000 * i, 20000, 230000));
    }
    EXPECT_FALSE(run_up.up());
    for (int i = 0; i < 12; ++i) {
        run_up.observe(readings_of(125000, 15000, 230000));
    }
    EXPECT_TRUE(run_up.settled());
    EXPECT_TRUE(run_up.up());
}

TEST(RunUp, ARotorThatSettlesAtHalfSpeedIsNotUp) {
    RunUp run_up{Settings{}};
    run_up.begin();
    stand(run_up, 12);
    for (int i = 0; i < 40; ++i) {
        run_up.observe(readings_of(92000, 24000, 230000));
    }
    EXPECT_TRUE(run_up.turning());
    EXPECT_TRUE(run_up.settled());
    EXPECT_FALSE(run_up.up());
}

// Covers: CL-04
TEST(RunUp, ASaggingLineDoesNotLookLikeARotor) {
    RunUp run_up{Settings{}};
    run_up.begin();
    stand(run_up, 12);
    for (int percent = 100; percent >= 60; percent -= 2) {
        run_up.observe(readings_of(740 * percent, 300 * percent, 2300 * percent));
    }
    EXPECT_FALSE(run_up.turning());
    for (int percent = 60; percent <= 120; percent += 2) {
        run_up.observe(readings_of(740 * percent, 300 * percent, 2300 * percent));
    }
    EXPECT_FALSE(run_up.turning());
    EXPECT_FALSE(run_up.accelerating());
}

// Covers: CL-04
TEST(RunUp, TheContactsFirstBounceIsNotTakenForTheStandstillVoltage) {
    RunUp run_up{Settings{}};
    run_up.begin();
    for (const std::int32_t voltage : {15000, 40000, 180000}) {
        run_up.observe(readings_of(voltage, 20000, 230000));
    }
    stand(run_up, 20);
    EXPECT_EQ(run_up.rise().count(), 1000);
    EXPECT_FALSE(run_up.up());
}

TEST(RunUp, AFallingCurrentShowsARotorBelowHalfSpeed) {
    RunUp run_up{Settings{}};
    run_up.begin();
    stand(run_up, 12);
    run_up.observe(readings_of(74500, 28500, 230000));
    EXPECT_FALSE(run_up.turning());
    run_up.observe(readings_of(75000, 27000, 230000));
    EXPECT_TRUE(run_up.turning());
    run_up.stage_began();
    for (int i = 0; i < 6; ++i) {
        run_up.observe(readings_of(75000, 33000, 230000));
    }
    EXPECT_FALSE(run_up.turning()) << "a new stage compares with its own beginning";
}

TEST(RunUp, ANewStageWithLessCurrentIsNoSignOfTurning) {
    RunUp run_up{Settings{}};
    run_up.begin();
    stand(run_up, 12);
    run_up.stage_began();
    for (int i = 0; i < 20; ++i) {
        run_up.observe(readings_of(74000, 25000, 230000));
        EXPECT_FALSE(run_up.turning()) << i;
    }
}

TEST(RunUp, AStandstillVoltageThatWasStillFallingIsLearnedAnew) {
    RunUp run_up{Settings{}};
    run_up.begin();
    for (int i = 0; i < 12; ++i) {
        run_up.observe(readings_of(90000, 30000, 230000));
    }
    stand(run_up, 20);
    EXPECT_EQ(run_up.rise().count(), 1000);
    for (int i = 0; i < 4; ++i) {
        run_up.observe(readings_of(86000, 30000, 230000));
    }
    EXPECT_TRUE(run_up.turning());
}

TEST(RunUp, EveryClimbBeginsWithNothingKnown) {
    RunUp run_up{Settings{}};
    run_up.begin();
    stand(run_up, 12);
    for (int i = 0; i < 12; ++i) {
        run_up.observe(readings_of(200000, 10000, 230000));
    }
    EXPECT_TRUE(run_up.up());
    run_up.begin();
    EXPECT_FALSE(run_up.up());
    EXPECT_FALSE(run_up.turning());
    EXPECT_EQ(run_up.rise().count(), 1000);
}

TEST(RunUp, ReadingsOfZeroDoNoHarm) {
    RunUp run_up{Settings{}};
    run_up.begin();
    for (int i = 0; i < 50; ++i) {
        run_up.observe(readings_of(0, 0, 0));
    }
    EXPECT_FALSE(run_up.up());
    EXPECT_FALSE(run_up.turning());
}

// Half cycles until a rotor whose voltage at S grows by so much per half cycle is up.
int half_cycles_until_up(const Settings& settings, std::int32_t growth_mV) {
    RunUp run_up{settings};
    run_up.begin();
    stand(run_up, 12);
    std::int32_t voltage = 74000;
    for (int k = 0; k < 1000; ++k) {
        voltage += growth_mV;
        run_up.observe(readings_of(voltage, 20000, 230000));
        if (run_up.up()) {
            return k;
        }
    }
    return 1000;
}

TEST(RunUp, LooksAheadByTheTimeThatTheStartCapacitorNeedsToComeOut) {
    Settings blind;
    blind.look_ahead_half_cycles = 0;
    for (const std::int32_t growth_mV : {3000, 6000, 12000}) {
        const int ahead =
            half_cycles_until_up(blind, growth_mV) - half_cycles_until_up(Settings{}, growth_mV);
        EXPECT_NEAR(ahead, Settings{}.look_ahead_half_cycles, 1) << growth_mV;
    }
}

TEST(RunUp, LookingAheadDoesNotMakeASlowRotorUp) {
    // It gains next to nothing: what is to come is what is.
    RunUp run_up{Settings{}};
    run_up.begin();
    stand(run_up, 12);
    for (int k = 0; k < 100; ++k) {
        run_up.observe(readings_of(74000 + 300 * k, 20000, 230000));
        EXPECT_FALSE(run_up.up()) << k;
    }
}

TEST(RunUp, BelowHalfSpeedAFallingCurrentShowsThatTheRotorGains) {
    RunUp run_up{Settings{}};
    run_up.begin();
    stand(run_up, 20);
    EXPECT_FALSE(run_up.accelerating());
    for (int k = 0; k < 12; ++k) {
        run_up.observe(readings_of(74000, 30000 - 250 * k, 230000));
        if (k >= 6) {
            EXPECT_TRUE(run_up.accelerating()) << k;
        }
    }
    stand(run_up, 12);  // the current has come back: it no longer gains
    EXPECT_FALSE(run_up.accelerating());
}

TEST(RunUp, AnotherFiringAngleIsNoGainOfSpeed) {
    RunUp run_up{Settings{}};
    run_up.begin();
    stand(run_up, 20);
    run_up.stage_began();
    for (int k = 0; k < 20; ++k) {
        run_up.observe(readings_of(74000, 20000, 230000));
        EXPECT_FALSE(run_up.accelerating()) << k;
    }
}

}  // namespace
