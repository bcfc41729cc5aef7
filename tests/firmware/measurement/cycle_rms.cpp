#include "firmware/measurement/cycle_rms.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace {

using firmware::CycleRms;

const double two_pi = 2.0 * std::acos(-1.0);

// Feeds a sine until the meter has seen `half_cycles`, closing at the zeros; returns the last
// value.
std::int32_t measure(double amplitude_counts, double offset_counts, double frequency_Hz,
                     double phase, std::int32_t scale, int half_cycles) {
    CycleRms meter;
    std::int32_t value = 0;
    int closed = 0;
    double last_sine = 0.0;
    for (int tick = 0; closed < half_cycles; ++tick) {
        const double angle = two_pi * frequency_Hz * tick * 1e-4;
        const double zero_marker = std::sin(angle);
        if (tick > 0 && (zero_marker >= 0.0) != (last_sine >= 0.0)) {
            value = meter.close_half_cycle(scale);
            ++closed;
        }
        last_sine = zero_marker;
        meter.add(static_cast<std::int32_t>(
            std::lround(offset_counts + amplitude_counts * std::sin(angle + phase))));
    }
    return value;
}

TEST(CycleRms, AgreesWithTheTrueValueForAnyAmplitudeFrequencyAndPhase) {
    std::mt19937 random(2);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    for (int i = 0; i < 400; ++i) {
        const double amplitude = 100.0 + 1900.0 * unit(random);
        const double frequency = 45.0 + 20.0 * unit(random);
        const double phase = two_pi * unit(random);
        const double exact = amplitude / std::sqrt(2.0) * 300.0;
        const double measured = measure(amplitude, 0.0, frequency, phase, 300, 6);
        EXPECT_NEAR(measured / exact, 1.0, 0.006) << amplitude << " " << frequency << " " << phase;
    }
}

TEST(CycleRms, IsExactToAThousandthWhereTheWindowIsWhole) {
    // 50 Hz: exactly 100 samples per half cycle.
    const double exact = 1000.0 / std::sqrt(2.0) * 150.0;
    EXPECT_NEAR(measure(1000.0, 0.0, 50.0, 0.7, 150, 5) / exact, 1.0, 0.001);
}

TEST(CycleRms, AConverterOffsetDoesNotCount) {
    for (const double offset : {-61.0, 61.0}) {
        const double plain = measure(300.0, 0.0, 50.0, 0.4, 500, 6);
        const double shifted = measure(300.0, offset, 50.0, 0.4, 500, 6);
        EXPECT_NEAR(shifted / plain, 1.0, 0.002);
    }
    EXPECT_LE(measure(0.0, 61.0, 60.0, 0.0, 150, 6), 10);
}

TEST(CycleRms, SaysNothingBeforeAFullCycle) {
    EXPECT_EQ(measure(1000.0, 0.0, 50.0, 0.0, 300, 1), 0);
    EXPECT_GT(measure(1000.0, 0.0, 50.0, 0.0, 300, 2), 0);
}

TEST(CycleRms, FollowsAStepWithinOneCycle) {
    CycleRms meter;
    for (int half = 0; half < 4; ++half) {
        for (int i = 0; i < 100; ++i) {
            meter.add(half % 2 == 0 ? 100 : -100);
        }
        meter.close_half_cycle(1);
    }
    for (int half = 0; half < 2; ++half) {
        for (int i = 0; i < 100; ++i) {
            meter.add(half % 2 == 0 ? 700 : -700);
        }
        if (half == 1) {
            EXPECT_EQ(meter.close_half_cycle(1), 700);
        } else {
            EXPECT_GT(meter.close_half_cycle(1), 300);
        }
    }
}

TEST(CycleRms, AnEndlessHalfCycleOfFullScaleDoesNotOverflow) {
    CycleRms meter;
    for (int half = 0; half < 2; ++half) {
        for (int i = 0; i < 100000; ++i) {
            meter.add(i % 2 == 0 ? -2048 : 2047);
        }
        if (half == 1) {
            EXPECT_NEAR(meter.close_half_cycle(500), 2047.5 * 500.0, 600.0);
        } else {
            meter.close_half_cycle(500);
        }
    }
}

TEST(CycleRms, SaysNothingOverAHalfCycleWithoutSamples) {
    CycleRms meter;
    meter.add(100);
    meter.close_half_cycle(1);
    EXPECT_EQ(meter.close_half_cycle(1), 0);
    EXPECT_EQ(meter.mean_counts(), 0);
}

TEST(CycleRms, TheMeanIsTheConvertersOffset) {
    CycleRms meter;
    for (int half = 0; half < 2; ++half) {
        meter.close_half_cycle(1);
        for (int i = 0; i < 100; ++i) {
            meter.add(70 + (half == 0 ? 500 : -500));
        }
    }
    meter.close_half_cycle(1);
    EXPECT_EQ(meter.mean_counts(), 70);
}

}  // namespace
