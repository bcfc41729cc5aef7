#include "firmware/recognition/stall.hpp"

#include <gtest/gtest.h>

#include "measurement/readings_of.hpp"

namespace {

using namespace firmware;

// Ticks until the watch speaks, at a constant current; -1 when it does not within two seconds.
int ticks_until(Stall& stall, std::int32_t current_mA, Reason expected,
                std::int32_t start_terminal_mV = 290000) {
    const Readings readings = measurement_test::readings_of(start_terminal_mV, current_mA, 230000);
    for (int tick = 1; tick <= 20000; ++tick) {
        const Reason reason = stall.tick(readings);
        if (reason != Reason::none) {
            EXPECT_EQ(reason, expected);
            return tick;
        }
    }
    return -1;
}

// Covers: RN-01
TEST(Stall, SpeaksAfterItsPatienceAndNotAtARunningCurrent) {
    Stall stall{Settings{}};
    stall.begin(MilliAmperes{80000});
    EXPECT_EQ(ticks_until(stall, 37000, Reason::stalled), 3000);
    stall.begin(MilliAmperes{80000});
    EXPECT_EQ(ticks_until(stall, 35500, Reason::stalled), -1);
    EXPECT_EQ(ticks_until(stall, 16000, Reason::stalled), -1);
    EXPECT_EQ(ticks_until(stall, 2000, Reason::stalled), -1);
}

// Covers: RN-03
TEST(Stall, SpeaksWhenTheCurrentIsGone) {
    Stall stall{Settings{}};
    stall.begin(MilliAmperes{80000});
    EXPECT_EQ(ticks_until(stall, 100, Reason::current_lost), 3000);
}

// Covers: RN-02
TEST(Stall, ARotorThatLosesItsSpeedIsToldByTheVoltageAtS) {
    Stall stall{Settings{}};
    stall.begin(MilliAmperes{80000});
    EXPECT_EQ(ticks_until(stall, 30000, Reason::stalled, 172000), 600);
    stall.begin(MilliAmperes{80000});
    EXPECT_EQ(ticks_until(stall, 20000, Reason::stalled, 173000), -1);
    stall.begin(MilliAmperes{80000});
    EXPECT_EQ(ticks_until(stall, 100, Reason::current_lost, 172000), 600) << "nothing feeds it";
}

// Covers: RN-06
TEST(Stall, ARotorThatIsPulledOutSlowlyIsToldByBothReadingsTogether) {
    Stall stall{Settings{}};
    stall.begin(MilliAmperes{80000});
    EXPECT_EQ(ticks_until(stall, 29000, Reason::stalled, 206000), 3000);
    stall.begin(MilliAmperes{80000});
    EXPECT_EQ(ticks_until(stall, 29000, Reason::stalled, 207500), -1) << "a heavy load at speed";
    stall.begin(MilliAmperes{80000});
    EXPECT_EQ(ticks_until(stall, 27900, Reason::stalled, 206000), -1) << "a low line at speed";
    stall.begin(MilliAmperes{80000});
    EXPECT_EQ(ticks_until(stall, 29000, Reason::stalled, 100), -1) << "S tells nothing";
}

// Covers: RN-04
TEST(Stall, AVoltageAtSThatIsNotThereTellsNothing) {
    Stall stall{Settings{}};
    stall.begin(MilliAmperes{80000});
    EXPECT_EQ(ticks_until(stall, 16000, Reason::none, 4500), -1);
    EXPECT_EQ(ticks_until(stall, 16000, Reason::none, 0), -1);
}

// Covers: RN-05
TEST(Stall, AStartCapacitorThatComesBackInIsTold) {
    Stall stall{Settings{}};
    stall.begin(MilliAmperes{80000});
    EXPECT_EQ(ticks_until(stall, 16000, Reason::start_capacitor_stuck_in, 391000), 3000);
    stall.begin(MilliAmperes{80000});
    EXPECT_EQ(ticks_until(stall, 16000, Reason::start_capacitor_stuck_in, 390000), -1);
}

// Covers: RN-01
TEST(Stall, AShortSurgeIsForgiven) {
    Stall stall{Settings{}};
    stall.begin(MilliAmperes{80000});
    Readings surge;
    surge.output_current_rms = MilliAmperes{70000};
    Readings normal;
    normal.output_current_rms = MilliAmperes{16000};
    for (int repeat = 0; repeat < 20; ++repeat) {
        for (int tick = 0; tick < 2999; ++tick) {
            ASSERT_EQ(stall.tick(surge), Reason::none);
        }
        ASSERT_EQ(stall.tick(normal), Reason::none);
    }
}

}  // namespace
