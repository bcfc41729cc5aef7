#include "firmware/measurement/line_tracker.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <functional>
#include <random>
#include <vector>

#include "firmware/measurement/meters.hpp"

namespace {

using firmware::LineTracker;

const double two_pi = 2.0 * std::acos(-1.0);

struct Line {
    double voltage_rms_V = 230.0;
    double frequency_Hz = 60.0;
    double phase_deg = 0.0;
    double harmonic = 0.0;  ///< of each of the 3rd, 5th and 7th
    double offset_counts = 0.0;
    /// Multiplies the voltage at a time; for sags, dropouts, notches.
    std::function<double(double time_s, double phase_rad)> shape = [](double, double) {
        return 1.0;
    };
};

// Runs a tracker on a line and keeps what it said at every tick.
class Trial {
  public:
    Trial(const Line& line, double duration_s) {
        LineTracker tracker;
        const int ticks = static_cast<int>(duration_s * 1e4);
        for (int tick = 0; tick < ticks; ++tick) {
            const double time = tick * 1e-4;
            const double phase =
                two_pi * line.frequency_Hz * time + line.phase_deg / 360.0 * two_pi;
            double volts = std::sin(phase);
            for (const int order : {3, 5, 7}) {
                volts += line.harmonic * std::sin(order * phase);
            }
            volts *= std::sqrt(2.0) * line.voltage_rms_V * line.shape(time, phase);
            const double counts = volts / 0.3 + line.offset_counts;
            tracker.step(
                static_cast<std::int32_t>(std::lround(std::clamp(counts, -2048.0, 2047.0))));
            locked.push_back(tracker.locked());
            const double tracked = tracker.phase().count() / 4294967296.0;
            double off = tracked - phase / two_pi;
            off -= std::round(off);
            error_deg.push_back(off * 360.0);
            frequency_Hz.push_back(tracker.frequency().count() * 1e-3);
            zeros += tracker.half_cycle_began() ? 1 : 0;
            ends += tracker.half_cycle_ends() ? 1 : 0;
            if (tracker.half_cycle_ends()) {
                ended_at = tick;
            }
            if (tracker.half_cycle_began() && tracker.locked()) {
                ticks_from_end_to_zero.push_back(tick - ended_at);
            }
        }
    }

    double lock_time_s() const {
        for (std::size_t i = 0; i < locked.size(); ++i) {
            if (locked[i]) {
                return static_cast<double>(i) * 1e-4;
            }
        }
        return 1e9;
    }

    double worst_error_deg(double from_s, double to_s) const {
        double worst = 0.0;
        for (std::size_t i = index(from_s); i < index(to_s); ++i) {
            worst = std::max(worst, std::fabs(error_deg[i]));
        }
        return worst;
    }

    bool always_locked(double from_s, double to_s) const {
        return std::all_of(locked.begin() + static_cast<std::ptrdiff_t>(index(from_s)),
                           locked.begin() + static_cast<std::ptrdiff_t>(index(to_s)),
                           [](bool is) { return is; });
    }

    static std::size_t index(double time_s) { return static_cast<std::size_t>(time_s * 1e4); }

    std::vector<bool> locked;
    std::vector<double> error_deg;
    std::vector<double> frequency_Hz;
    std::vector<int> ticks_from_end_to_zero;  ///< while locked
    int zeros = 0;
    int ends = 0;
    int ended_at = 0;
};

// Covers: LW-01
TEST(LineTracker, LocksOn50And60HertzWithin90MillisecondsFromAnyPhase) {
    for (const double frequency : {50.0, 60.0}) {
        for (const double voltage : {100.0, 120.0, 230.0, 250.0}) {
            for (int degrees = 0; degrees < 360; degrees += 15) {
                Line line;
                line.frequency_Hz = frequency;
                line.voltage_rms_V = voltage;
                line.phase_deg = degrees;
                const Trial trial(line, 0.25);
                EXPECT_LE(trial.lock_time_s(), 0.090)
                    << frequency << " " << voltage << " " << degrees;
                EXPECT_LT(trial.worst_error_deg(trial.lock_time_s(), 0.25), 6.0);
            }
        }
    }
}

TEST(LineTracker, LocksAnywhereBetween45And65HertzWithin100Milliseconds) {
    for (double frequency = 45.0; frequency <= 65.0; frequency += 1.25) {
        for (int degrees = 0; degrees < 360; degrees += 45) {
            Line line;
            line.frequency_Hz = frequency;
            line.phase_deg = degrees;
            const Trial trial(line, 0.4);
            EXPECT_LE(trial.lock_time_s(), 0.100) << frequency << " " << degrees;
            EXPECT_NEAR(trial.frequency_Hz.back(), frequency, 0.01);
        }
    }
}

TEST(LineTracker, SettlesToATwentiethOfADegreeOnACleanLine) {
    for (const double frequency : {45.0, 50.0, 55.5, 60.0, 65.0}) {
        Line line;
        line.frequency_Hz = frequency;
        line.phase_deg = 123.0;
        const Trial trial(line, 0.6);
        EXPECT_LT(trial.worst_error_deg(0.4, 0.6), 0.05) << frequency;
    }
}

// Covers: LW-09
TEST(LineTracker, StaysWithinADegreeUnderTenPercentOfThirdFifthAndSeventh) {
    for (const double frequency : {45.0, 50.0, 60.0, 65.0}) {
        for (const double sign : {1.0, -1.0}) {
            Line line;
            line.frequency_Hz = frequency;
            line.harmonic = 0.1 * sign;
            line.phase_deg = 70.0;
            const Trial trial(line, 0.6);
            EXPECT_LE(trial.lock_time_s(), 0.100);
            EXPECT_LT(trial.worst_error_deg(0.3, 0.6), 1.0) << frequency;
        }
    }
}

// Covers: LW-09
TEST(LineTracker, AConverterOffsetOfThreePercentNeitherDelaysNorShifts) {
    for (const double offset : {-61.0, 61.0}) {
        for (const double voltage : {100.0, 230.0}) {
            Line line;
            line.voltage_rms_V = voltage;
            line.offset_counts = offset;
            const Trial trial(line, 0.6);
            EXPECT_LE(trial.lock_time_s(), 0.100);
            EXPECT_LT(trial.worst_error_deg(0.3, 0.6), 0.1);
        }
    }
}

// Covers: LW-09
TEST(LineTracker, DeepNotchesInEveryHalfCycleCostLessThanTwoDegrees) {
    Line line;
    line.shape = [](double, double phase) {
        const double degrees = std::fmod(phase / two_pi * 360.0, 180.0);
        return degrees > 100.0 && degrees < 108.0 ? 0.1 : 1.0;
    };
    const Trial trial(line, 0.6);
    EXPECT_TRUE(trial.always_locked(0.15, 0.6));
    EXPECT_LT(trial.worst_error_deg(0.3, 0.6), 2.0);
}

TEST(LineTracker, KeepsItsLockThroughASagToHalf) {
    for (const double frequency : {50.0, 60.0}) {
        for (int degrees = 0; degrees < 360; degrees += 30) {
            Line line;
            line.frequency_Hz = frequency;
            line.voltage_rms_V = 120.0;
            line.phase_deg = degrees;
            line.shape = [](double time, double) { return time > 0.3 && time < 0.5 ? 0.5 : 1.0; };
            const Trial trial(line, 0.8);
            EXPECT_TRUE(trial.always_locked(0.15, 0.8));
            // A step in size swings the phase by some degrees for two cycles, no more.
            EXPECT_LT(trial.worst_error_deg(0.3, 0.8), 11.0);
            EXPECT_LT(trial.worst_error_deg(0.4, 0.5), 1.0);
            EXPECT_LT(trial.worst_error_deg(0.6, 0.8), 1.0);
        }
    }
}

// Covers: LW-07
TEST(LineTracker, HoldsPhaseAndFrequencyThroughTwoLostCycles) {
    for (const double frequency : {50.0, 60.0}) {
        Line line;
        line.frequency_Hz = frequency;
        line.shape = [frequency](double time, double) {
            return time > 0.4 && time < 0.4 + 2.0 / frequency ? 0.0 : 1.0;
        };
        const Trial trial(line, 0.8);
        EXPECT_TRUE(trial.always_locked(0.15, 0.8)) << frequency;
        EXPECT_LT(trial.worst_error_deg(0.4, 0.8), 8.0) << frequency;
        EXPECT_LT(trial.worst_error_deg(0.65, 0.8), 0.3) << frequency;
    }
}

// Covers: LW-07
TEST(LineTracker, ReportsTheLineLostWhenItStaysAwayAndFindsItAgain) {
    Line line;
    line.shape = [](double time, double) { return time > 0.4 && time < 0.7 ? 0.0 : 1.0; };
    const Trial trial(line, 1.0);
    EXPECT_TRUE(trial.always_locked(0.15, 0.42));
    EXPECT_FALSE(trial.locked[Trial::index(0.55)]);
    EXPECT_NEAR(trial.frequency_Hz[Trial::index(0.69)], 60.0, 1.0);
    EXPECT_TRUE(trial.always_locked(0.8, 1.0));
}

// Covers: LW-08
TEST(LineTracker, ALineOfTheWrongSignForAHalfCycleIsNotTheTrackedOneAnyMore) {
    for (int phase = 0; phase < 12; ++phase) {
        Line line;
        line.phase_deg = 30.0 * phase;
        line.shape = [](double time, double) { return time > 0.3 ? -1.0 : 1.0; };
        const Trial trial(line, 0.33);
        EXPECT_TRUE(trial.always_locked(0.2, 0.3));
        EXPECT_FALSE(trial.always_locked(0.3, 0.32)) << line.phase_deg;
    }
}

TEST(LineTracker, APhaseJumpOfHalfATurnLosesTheLockInsteadOfHangingOn) {
    Line line;
    line.shape = [](double time, double) { return time > 0.3 ? -1.0 : 1.0; };
    const Trial trial(line, 0.8);
    // The line is upside down from 0.3 s on: the true phase is half a turn off the reference.
    EXPECT_NEAR(std::fabs(trial.error_deg.back()), 180.0, 0.5);
    EXPECT_TRUE(trial.locked.back());
}

// Covers: LW-08
TEST(LineTracker, AFrequencyThatJumpsOutOfItsBandIsToldWithin50Milliseconds) {
    struct Jump {
        double from_Hz;
        double to_Hz;
    };
    for (const Jump& jump : {Jump{50.0, 45.0}, Jump{60.0, 66.0}, Jump{50.0, 60.0}, Jump{50.0, 68.0},
                             Jump{60.0, 68.0}, Jump{60.0, 50.0}, Jump{60.0, 43.0}}) {
        for (int phase = 0; phase < 12; ++phase) {
            LineTracker tracker;
            double turns = phase / 12.0;
            int told_after_ticks = -1;
            for (int tick = 0; tick < 6000 && told_after_ticks < 0; ++tick) {
                tracker.step(
                    static_cast<std::int32_t>(std::lround(1084.0 * std::sin(two_pi * turns))));
                turns += (tick < 3000 ? jump.from_Hz : jump.to_Hz) * 1e-4;
                const double told_Hz = tracker.frequency().count() * 1e-3;
                // A jump from one usual frequency to the other is told by the lock alone.
                const bool in_band = told_Hz > 46.0 && told_Hz < 64.0;
                if (tick >= 3000 && (!tracker.locked() || !in_band)) {
                    told_after_ticks = tick - 3000;
                }
            }
            EXPECT_GE(told_after_ticks, 0) << jump.to_Hz;
            EXPECT_LE(told_after_ticks, 500) << jump.to_Hz;
        }
    }
}

TEST(LineTracker, FullScaleGarbageAtItsOwnFrequencyStaysInside) {
    // A square wave of full scale drives every filter state as far as it can go.
    LineTracker tracker;
    for (int tick = 0; tick < 100000; ++tick) {
        tracker.step((tick / 83) % 2 == 0 ? 2047 : -2048);
    }
    EXPECT_NEAR(tracker.frequency().count(), 60241, 300);
}

TEST(LineTracker, FollowsAGeneratorThatDriftsByFiveHertzPerSecond) {
    LineTracker tracker;
    double turns = 0.0;
    double worst_deg = 0.0;
    for (int tick = 0; tick < 16000; ++tick) {
        const double drifting = std::clamp(tick * 1e-4 - 0.3, 0.0, 1.0);
        tracker.step(static_cast<std::int32_t>(std::lround(1084.0 * std::sin(two_pi * turns))));
        double off = tracker.phase().count() / 4294967296.0 - turns;
        off -= std::round(off);
        if (tick > 3000) {
            worst_deg = std::max(worst_deg, std::fabs(off) * 360.0);
        }
        turns += (60.0 - 5.0 * drifting) * 1e-4;
    }
    EXPECT_TRUE(tracker.locked());
    EXPECT_LT(worst_deg, 1.5);
    EXPECT_GT(worst_deg, 0.5) << "a loop of the second kind lags behind a drift";
    EXPECT_NEAR(tracker.frequency().count(), 55000, 20);
}

TEST(LineTracker, ADeadOrNoisyInputIsNeverALine) {
    LineTracker dead;
    LineTracker noisy;
    std::mt19937 random(3);
    for (int tick = 0; tick < 50000; ++tick) {
        dead.step(0);
        noisy.step(static_cast<std::int32_t>(random() % 41) - 20);
        ASSERT_FALSE(dead.locked());
        ASSERT_FALSE(noisy.locked());
    }
}

TEST(LineTracker, MarksEveryVoltageZeroOnce) {
    for (const double frequency : {45.0, 50.0, 60.0, 65.0}) {
        Line line;
        line.frequency_Hz = frequency;
        line.harmonic = 0.1;
        const Trial late(line, 2.0);
        const Trial early(line, 0.5);
        EXPECT_NEAR(late.zeros - early.zeros, 2.0 * frequency * 1.5, 1.0) << frequency;
    }
}

// What is decided at the zero needs readings that are whole by then (measurement/meters.hpp).
TEST(LineTracker, ForeseesEveryZeroByTheTimeThatTheReadingsTake) {
    constexpr int needed = firmware::Meters::ticks_to_readings;
    for (double frequency = 45.0; frequency <= 65.0; frequency += 2.5) {
        for (const double harmonic : {0.0, 0.03}) {
            Line line;
            line.frequency_Hz = frequency;
            line.harmonic = harmonic;
            const Trial trial(line, 1.0);
            EXPECT_GT(trial.ticks_from_end_to_zero.size(), 70U) << frequency;
            for (const int ticks : trial.ticks_from_end_to_zero) {
                EXPECT_GE(ticks, needed) << frequency;
                EXPECT_LE(ticks, needed + 1) << frequency;
            }
            EXPECT_LE(std::abs(trial.ends - trial.zeros), 1) << frequency;
        }
    }
}

TEST(LineTracker, EndsAHalfCycleForEveryZeroOfAnyLine) {
    std::mt19937 random(12);
    for (int run = 0; run < 100; ++run) {
        Line line;
        line.frequency_Hz = 40.0 + static_cast<double>(random() % 3000) / 100.0;
        line.phase_deg = static_cast<double>(random() % 360);
        const double jump_s = 0.3 + static_cast<double>(random() % 1000) * 1e-4;
        const bool is_turned = random() % 2 == 0;
        line.shape = [=](double time, double) {
            return time < jump_s ? 1.0 : (is_turned ? -1.0 : 0.2);
        };
        const Trial trial(line, 0.8);
        EXPECT_LE(std::abs(trial.ends - trial.zeros), 1) << run;
        for (const int ticks : trial.ticks_from_end_to_zero) {
            EXPECT_LE(ticks, 100) << run;
        }
    }
}

}  // namespace
