#include "firmware/gating/gate_timer.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <random>
#include <vector>

namespace {

using namespace firmware;

constexpr double turn_counts = 4294967296.0;

struct Pulse {
    double on_us;
    double off_us;
};

struct Line {
    double frequency_Hz;
    double phase_deg;
    double jitter_deg = 0.0;  ///< error of the tracked phase, new at every tick
};

Phase tracked(const Line& line, int tick, double error_deg) {
    const double turns = line.frequency_Hz * tick * 1e-4 + (line.phase_deg + error_deg) / 360.0;
    const double whole = std::floor(turns);
    return Phase{static_cast<std::uint32_t>(
        static_cast<std::uint64_t>(std::llround((turns - whole) * turn_counts)) & 0xFFFFFFFFULL)};
}

// Drives a timer and joins the windows into pulses, in the time of the line: the window of the
// frame that answers tick k drives from k+1 to k+2.
std::vector<Pulse> pulses_of(const Line& line, double firing_deg, double end_deg, int ticks) {
    GateTimer timer(half_turn_from(MilliDegrees{static_cast<std::int32_t>(end_deg * 1000)}));
    const PhaseStep step =
        phase_step_from(MilliHertz{static_cast<std::int32_t>(line.frequency_Hz * 1000)});
    const HalfTurn firing =
        half_turn_from(MilliDegrees{static_cast<std::int32_t>(firing_deg * 1000)});
    std::mt19937 random(4);
    std::uniform_real_distribution<double> unit(-1.0, 1.0);
    std::vector<Pulse> pulses;
    for (int tick = 0; tick < ticks; ++tick) {
        const GateWindow window =
            timer.step(tracked(line, tick, line.jitter_deg * unit(random)), step, true, firing);
        EXPECT_GE(window.on.count(), 0);
        EXPECT_LE(window.off.count(), 100);
        EXPECT_LE(window.on.count(), window.off.count());
        if (window.on == window.off) {
            continue;
        }
        const double start_us = (tick + 1) * 100.0;
        const double on = start_us + window.on.count();
        const double off = start_us + window.off.count();
        if (!pulses.empty() && pulses.back().off_us == on) {
            pulses.back().off_us = off;
        } else {
            pulses.push_back({on, off});
        }
    }
    return pulses;
}

// Degrees since the last voltage zero of the true line.
double half_cycle_degrees(const Line& line, double time_us) {
    return std::fmod(360.0 * line.frequency_Hz * time_us * 1e-6 + line.phase_deg + 3600.0, 180.0);
}

// Covers: GT-01
TEST(GateTimer, EdgesMeetTheExactAngleToTheMicrosecond) {
    for (double frequency = 45.0; frequency <= 65.0; frequency += 0.5) {
        const double us_per_degree = 1e6 / (360.0 * frequency);
        for (const double firing : {5.0, 30.0, 61.7, 90.0, 122.0, 150.0, 165.0}) {
            const Line line{frequency, 17.3};
            const std::vector<Pulse> pulses = pulses_of(line, firing, 170.0, 2000);
            ASSERT_GE(pulses.size(), 15U);
            for (std::size_t i = 1; i + 1 < pulses.size(); ++i) {
                EXPECT_NEAR((half_cycle_degrees(line, pulses[i].on_us) - firing) * us_per_degree,
                            0.0, 1.0);
                EXPECT_NEAR((half_cycle_degrees(line, pulses[i].off_us) - 170.0) * us_per_degree,
                            0.0, 1.0);
            }
        }
    }
}

// Covers: GT-02
TEST(GateTimer, GivesOneUnbrokenPulsePerHalfCycleEvenWhenTheTrackedPhaseJitters) {
    for (const double frequency : {45.0, 50.0, 60.0, 65.0}) {
        const Line line{frequency, 3.0, 0.5};
        const std::vector<Pulse> pulses = pulses_of(line, 60.0, 170.0, 20000);
        EXPECT_NEAR(static_cast<double>(pulses.size()), 2.0 * frequency * 2.0, 1.0) << frequency;
        for (std::size_t i = 1; i + 1 < pulses.size(); ++i) {
            EXPECT_NEAR(pulses[i].off_us - pulses[i].on_us, 110.0 * 1e6 / (360.0 * frequency),
                        100.0);
        }
    }
}

// Covers: GT-03
TEST(GateTimer, NeverDrivesAcrossAVoltageZero) {
    for (double frequency = 45.0; frequency <= 65.0; frequency += 1.0) {
        for (const double end : {170.0, 175.0, 179.9}) {  // the last is beyond what it accepts
            const Line line{frequency, 200.0};
            for (const Pulse& pulse : pulses_of(line, 8.0, end, 4000)) {
                EXPECT_LE(half_cycle_degrees(line, pulse.off_us), 175.1);
                EXPECT_LT(pulse.off_us - pulse.on_us, 0.5e6 / frequency);
            }
        }
    }
}

TEST(GateTimer, AngleAtOrBeyondThePulseEndGivesNoPulse) {
    EXPECT_TRUE(pulses_of({60.0, 0.0}, 170.0, 170.0, 2000).empty());
    EXPECT_TRUE(pulses_of({60.0, 0.0}, 179.0, 170.0, 2000).empty());
}

// Covers: GT-04
TEST(GateTimer, GoesDarkAtOnceAndStaysSoForTheRestOfTheHalfCycle) {
    GateTimer timer(half_turn_from(MilliDegrees{170000}));
    const PhaseStep step = phase_step_from(MilliHertz{60000});
    const HalfTurn firing = half_turn_from(MilliDegrees{30000});
    const Line line{60.0, 350.0};
    bool lit_before = false;
    for (int tick = 0; tick < 40; ++tick) {
        const GateWindow window = timer.step(tracked(line, tick, 0.0), step, true, firing);
        lit_before = window.off > window.on;
    }
    EXPECT_TRUE(lit_before);
    EXPECT_EQ(timer.step(tracked(line, 40, 0.0), step, false, firing).off.count(), 0);
    EXPECT_EQ(timer.step(tracked(line, 41, 0.0), step, true, firing).off.count(), 0);
}

TEST(GateTimer, AnEarlierAngleGivenLateFiresAtOnce) {
    GateTimer timer(half_turn_from(MilliDegrees{170000}));
    const PhaseStep step = phase_step_from(MilliHertz{60000});
    const Line line{60.0, 350.0};
    for (int tick = 0; tick < 50; ++tick) {  // to 98 degrees, with an angle of 150
        const GateWindow window =
            timer.step(tracked(line, tick, 0.0), step, true, half_turn_from(MilliDegrees{150000}));
        EXPECT_EQ(window.on, window.off);
    }
    const GateWindow window =
        timer.step(tracked(line, 50, 0.0), step, true, half_turn_from(MilliDegrees{60000}));
    EXPECT_EQ(window.on.count(), 0);
    EXPECT_EQ(window.off.count(), 100);
}

}  // namespace
