// RMS over half cycles and over one cycle, against closed forms.
#include "sim/metrics/window_rms.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace {

constexpr double tick_s = 1e-4;
constexpr double pi = 3.14159265358979323846;

struct Reading {
    double half_cycle_rms;
    double one_cycle_rms;
    double at_s;
};

template <class Signal>
std::vector<Reading> readings(double frequency_Hz, double duration_s, Signal signal) {
    sim::WindowRms window(frequency_Hz, tick_s);
    std::vector<Reading> rows;
    const int ticks = static_cast<int>(std::lround(duration_s / tick_s));
    for (int k = 0; k <= ticks; ++k) {
        if (window.add(signal(k * tick_s))) {
            rows.push_back({window.half_cycle_rms(), window.one_cycle_rms(), k * tick_s});
        }
    }
    return rows;
}

TEST(WindowRms, OfASineOfAnyPhaseAndFrequencyIsItsAmplitudeOverRootTwo) {
    // Most of these frequencies have half cycles that are no whole number of ticks.
    for (const double frequency_Hz : {45.0, 47.3, 50.0, 53.7, 59.9, 60.0, 61.1, 65.0}) {
        for (double phase = 0.0; phase < 2.0 * pi; phase += 0.37) {
            const auto rows = readings(frequency_Hz, 0.2, [&](double t) {
                return 325.0 * std::sin(2.0 * pi * frequency_Hz * t + phase);
            });
            ASSERT_GE(rows.size(), 17U);
            const double expected = 325.0 / std::sqrt(2.0);
            for (std::size_t k = 0; k < rows.size(); ++k) {
                EXPECT_NEAR(rows[k].half_cycle_rms, expected, 2e-6 * expected)
                    << frequency_Hz << " Hz, phase " << phase << ", window " << k;
                if (k >= 1) {
                    EXPECT_NEAR(rows[k].one_cycle_rms, expected, 2e-6 * expected);
                }
            }
        }
    }
}

TEST(WindowRms, OfAConstantIsItsMagnitude) {
    for (const double frequency_Hz : {45.0, 51.7, 65.0}) {
        for (const Reading& row : readings(frequency_Hz, 0.1, [](double) { return -7.25; })) {
            EXPECT_NEAR(row.half_cycle_rms, 7.25, 7.25e-12);
        }
    }
}

TEST(WindowRms, SeesAnOffsetInOneCycleButSplitsItOverTheHalves) {
    // Over one cycle: sqrt(A^2/2 + B^2). Over a half: the cross term +-4AB/pi stays.
    constexpr double amplitude = 10.0;
    constexpr double offset = 3.0;
    const double frequency_Hz = 57.0;
    const auto rows = readings(frequency_Hz, 0.2, [&](double t) {
        return offset + amplitude * std::sin(2.0 * pi * frequency_Hz * t);
    });
    const double squares = amplitude * amplitude / 2.0 + offset * offset;
    const double cross = 4.0 * amplitude * offset / pi;
    // Where the square's slope differs at the two ends of a half cycle, the trapezoidal rule errs
    // by h^2/12 of that difference: h^2/12 * 4 B A w.
    const double square_error = tick_s * tick_s / 12.0 * 4.0 * offset * amplitude *
                                (2.0 * pi * frequency_Hz) * 2.0 * frequency_Hz;
    for (std::size_t k = 0; k < rows.size(); ++k) {
        const double sign = k % 2 == 0 ? 1.0 : -1.0;
        const double expected = std::sqrt(squares + sign * cross);
        EXPECT_NEAR(rows[k].half_cycle_rms, expected, 1.05 * square_error / (2.0 * expected));
        if (k >= 1) {
            EXPECT_NEAR(rows[k].one_cycle_rms, std::sqrt(squares), 1e-5);
        }
    }
}

TEST(WindowRms, CompletesAWindowAtTheFirstTickAtOrAfterItsEdge) {
    const double frequency_Hz = 53.7;
    const auto rows = readings(frequency_Hz, 1.0, [](double) { return 1.0; });
    for (std::size_t k = 0; k < rows.size(); ++k) {
        const double edge_s = 0.5 / frequency_Hz * static_cast<double>(k + 1);
        EXPECT_GE(rows[k].at_s, edge_s - 1e-9);
        EXPECT_LT(rows[k].at_s, edge_s + tick_s);
    }
    EXPECT_EQ(rows.size(), 107U);  // floor(1 s / 9.3110 ms)
}

TEST(WindowRms, TakesOverAStepWithinOneWindow) {
    // 10 until 0.1 s, then 20. Every 60 Hz half cycle is all 10 or all 20: the step is at an edge.
    const auto rows = readings(60.0, 0.2, [](double t) { return t < 0.1 - 1e-9 ? 10.0 : 20.0; });
    for (const Reading& row : rows) {
        // The trapezoidal rule smears the step over one tick.
        const double expected = row.at_s < 0.1 + 1e-9 ? 10.0 : 20.0;
        EXPECT_NEAR(row.half_cycle_rms, expected, 0.1) << row.at_s;
    }
}

TEST(WindowRms, HasNoReadingBeforeTheFirstHalfCycle) {
    sim::WindowRms window(50.0, tick_s);
    for (int k = 0; k < 100; ++k) {
        EXPECT_FALSE(window.add(1.0));
    }
    EXPECT_EQ(window.half_cycles(), 0);
    EXPECT_TRUE(window.add(1.0));
    EXPECT_EQ(window.half_cycles(), 1);
}

TEST(WindowRms, FollowsASupplyWhoseFrequencyDips) {
    // A generator loaded hard: from 62 Hz down to 50 Hz within 0.3 s. Every half cycle of its sine
    // has the same RMS; windows of 62 Hz would be a sixth too short at the end.
    const auto frequency_Hz = [](double t) { return 62.0 - 40.0 * t; };
    const auto phase_rad = [](double t) { return 2.0 * pi * (62.0 * t - 20.0 * t * t); };
    sim::WindowRms following(62.0, tick_s);
    sim::WindowRms fixed(62.0, tick_s);
    double worst = 0.0;
    double worst_fixed = 0.0;
    for (int k = 0; k <= 3000; ++k) {
        const double t = k * tick_s;
        const double value = std::sqrt(2.0) * 230.0 * std::sin(phase_rad(t) + 0.4);
        if (following.add(value, frequency_Hz(t - 0.5 * tick_s))) {
            worst = std::max(worst, std::abs(following.half_cycle_rms() - 230.0));
        }
        if (fixed.add(value)) {
            worst_fixed = std::max(worst_fixed, std::abs(fixed.half_cycle_rms() - 230.0));
        }
    }
    // What is left: within one half cycle the frequency itself falls by two thirds of a percent.
    EXPECT_LT(worst, 0.003 * 230.0);
    EXPECT_GT(worst_fixed, 0.05 * 230.0);
}

TEST(WindowRms, OfADeadSupplyIsStillRead) {
    sim::WindowRms window(60.0, tick_s);
    for (int k = 0; k <= 500; ++k) {
        window.add(100.0, 60.0);
    }
    const int before = window.half_cycles();
    for (int k = 0; k <= 500; ++k) {
        window.add(0.0, 0.0);
    }
    EXPECT_GE(window.half_cycles(), before + 2);
    EXPECT_EQ(window.half_cycle_rms(), 0.0);
}

}  // namespace
