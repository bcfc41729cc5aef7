// The yardstick of every waveform comparison here, on signals whose answer is known.
#include "waveform.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>
#include <vector>

namespace {

using namespace published;

constexpr double pi = 3.14159265358979323846;

/// sqrt(2) * rms * sin(2 pi 50 t + phase) on a grid whose steps grow and shrink.
struct UnevenSine {
    UnevenSine(double rms, double phase) {
        double t = 0.0;
        for (int k = 0; t < 0.1; ++k) {
            time.push_back(t);
            value.push_back(std::sqrt(2.0) * rms * std::sin(100.0 * pi * t + phase));
            t += 10e-6 * (1.0 + 0.5 * std::sin(0.37 * k));
        }
    }
    Waveform view() const { return {time, value}; }
    std::vector<double> time, value;
};

TEST(WaveformComparison, DifferenceIsTheErrorAsAShareOfTheReference) {
    const UnevenSine reference(10.0, 0.3);
    const UnevenSine larger(10.1, 0.3);
    const UnevenSine later(10.0, 0.302);
    const auto difference = [&](const UnevenSine& other) {
        return relative_rms_difference(other.view(), reference.view(), 0.0, 0.08, 7e-6);
    };
    EXPECT_NEAR(difference(larger), 0.01, 1e-5);
    EXPECT_NEAR(difference(later), 0.002, 1e-5);
    EXPECT_EQ(difference(reference), 0.0);
}

TEST(WaveformComparison, FundamentalHasTheRmsAndThePhaseOfItsSine) {
    const UnevenSine sine(10.0, 0.3);
    const auto phasor = fundamental(sine.view(), 50.0, 0.043);
    EXPECT_NEAR(std::abs(phasor), 10.0, 1e-4);
    EXPECT_NEAR(std::arg(phasor), 0.3, 1e-5);
    EXPECT_NEAR(mean(sine.view(), 0.02, 0.06), 0.0, 1e-4);
}

TEST(WaveformComparison, LevelsAndPeaksAreFoundBetweenAndAtThePoints) {
    const std::vector<double> time{0.0, 1.0, 2.0, 4.0};
    const std::vector<double> value{0.0, 2.0, -5.0, 3.0};
    const Waveform waveform{time, value};
    EXPECT_DOUBLE_EQ(first_rise_through(waveform, 0.5), 0.25);
    EXPECT_DOUBLE_EQ(first_rise_through(waveform, 2.5), 3.875);
    EXPECT_THROW(first_rise_through(waveform, 3.5), std::runtime_error);
    EXPECT_EQ(largest_magnitude(waveform).value, -5.0);
    EXPECT_EQ(largest_magnitude(waveform).time_s, 2.0);
    EXPECT_DOUBLE_EQ(waveform.at(-1.0), 0.0);
    EXPECT_DOUBLE_EQ(waveform.at(3.0), -1.0);
    EXPECT_DOUBLE_EQ(waveform.at(9.0), 3.0);
}

}  // namespace
