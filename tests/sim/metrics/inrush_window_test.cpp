// The reading of an inrush clamp, against a sum over every window.
#include "sim/metrics/inrush_window.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <complex>
#include <random>
#include <vector>

namespace {

constexpr double tick_s = 1e-4;
constexpr std::size_t window_ticks = 1000;

double reading(const std::vector<double>& current) {
    sim::InrushWindow window(tick_s);
    for (const double value : current) {
        window.add(value);
    }
    return window.largest_rms_A().value();
}

/// Every window by itself, with the trapezoidal rule.
double brute_force(const std::vector<double>& current) {
    double largest = 0.0;
    for (std::size_t begin = 0; begin + window_ticks < current.size(); ++begin) {
        double sum = 0.5 * (current[begin] * current[begin] +
                            current[begin + window_ticks] * current[begin + window_ticks]);
        for (std::size_t k = begin + 1; k < begin + window_ticks; ++k) {
            sum += current[k] * current[k];
        }
        largest = std::max(largest, sum);
    }
    return std::sqrt(largest / static_cast<double>(window_ticks));
}

TEST(InrushWindow, AgreesWithEveryWindowSummedByItselfOnRandomSignals) {
    std::mt19937 random(7);
    std::normal_distribution<double> noise(0.0, 20.0);
    std::uniform_real_distribution<double> level(0.1, 3.0);
    for (const std::size_t length : {1001U, 1002U, 1500U, 2000U, 2001U, 3777U}) {
        std::vector<double> current(length);
        double scale = 1.0;
        for (std::size_t k = 0; k < length; ++k) {
            if (k % 250 == 0) {
                scale = level(random);
            }
            current[k] = scale * noise(random);
        }
        const double expected = brute_force(current);
        EXPECT_NEAR(reading(current), expected, 1e-10 * expected) << length;
    }
}

TEST(InrushWindow, FindsABurstWhereverItLies) {
    // 80 A for 40 ms, else nothing: sqrt(80^2 * 0.4) = 50.596 A over 100 ms, by hand.
    for (const std::size_t begin : {0U, 1U, 300U, 999U, 1000U, 1001U, 1600U}) {
        std::vector<double> current(2200, 0.0);
        std::fill(current.begin() + static_cast<std::ptrdiff_t>(begin),
                  current.begin() + static_cast<std::ptrdiff_t>(begin) + 401, 80.0);
        // The trapezoidal rule adds half a tick at each end that is inside the record.
        const double ticks = 400.0 + (begin == 0 ? 0.5 : 1.0);
        EXPECT_NEAR(reading(current), 80.0 * std::sqrt(ticks / 1000.0), 1e-9) << begin;
        EXPECT_NEAR(reading(current), 50.596, 0.1);
    }
}

TEST(InrushWindow, OfASteadySineIsItsRms) {
    std::vector<double> current;
    for (int k = 0; k <= 3000; ++k) {
        current.push_back(40.0 * std::sin(2.0 * 3.14159265358979323846 * 60.0 * k * tick_s));
    }
    // Six whole cycles fit into 100 ms at 60 Hz.
    EXPECT_NEAR(reading(current), 40.0 / std::sqrt(2.0), 1e-4);
}

/// RMS of sin(w t + p) - d e^(-t/tau) over T from t = 0, term by term (w T a multiple of pi):
///   sin^2             T/2 - (sin(2wT + 2p) - sin 2p) / 4w  =  T/2
///   e^(-2t/tau)       d^2 tau/2 (1 - e^(-2T/tau))
///   cross             -2 d Im[ e^(jp) (1 - e^((jw - 1/tau) T)) / (1/tau - jw) ]
double closed_form(double omega, double phase, double direct_share, double tau_s, double length_s) {
    const std::complex<double> rate(1.0 / tau_s, -omega);
    const double cross =
        -2.0 * direct_share *
        (std::polar(1.0, phase) * (1.0 - std::exp(-rate * length_s)) / rate).imag();
    const double direct =
        direct_share * direct_share * 0.5 * tau_s * (1.0 - std::exp(-2.0 * length_s / tau_s));
    return std::sqrt((0.5 * length_s + direct + cross) / length_s);
}

// What closing a circuit of resistance and inductance does: a sine from the first instant on, and a
// direct part that takes its start to zero and decays. The largest window begins a little after the
// start, where the current has risen as far as it will be at the window's end.
TEST(InrushWindow, OfASineWithADecayingDirectPartIsTheClosedForm) {
    constexpr double pi = 3.14159265358979323846;
    for (const double frequency : {50.0, 60.0}) {
        for (const double phase : {-pi / 2.0, -1.0, 0.3}) {
            for (const double tau_s : {0.003, 0.010, 0.040}) {
                const double omega = 2.0 * pi * frequency;
                std::vector<double> current;
                for (int k = 0; k <= 3000; ++k) {
                    const double t = k * tick_s;
                    current.push_back(100.0 * (std::sin(omega * t + phase) -
                                               std::sin(phase) * std::exp(-t / tau_s)));
                }
                double largest = 0.0;
                for (double begin = 0.0; begin <= 0.05; begin += 1e-5) {
                    largest =
                        std::max(largest, closed_form(omega, phase + omega * begin,
                                                      std::sin(phase) * std::exp(-begin / tau_s),
                                                      tau_s, 0.1));
                }
                // The window begins at a tick and sums by the trapezoidal rule.
                EXPECT_NEAR(reading(current), 100.0 * largest, 0.02)
                    << frequency << " Hz, phase " << phase << ", tau " << tau_s;
            }
        }
    }
}

TEST(InrushWindow, HasNoReadingBeforeOneWholeWindow) {
    sim::InrushWindow window(tick_s);
    for (std::size_t k = 0; k < window_ticks; ++k) {
        window.add(5.0);
        EXPECT_FALSE(window.largest_rms_A().has_value());
    }
    window.add(5.0);  // the 1001st sample ends the first 100 ms
    ASSERT_TRUE(window.largest_rms_A().has_value());
    EXPECT_NEAR(*window.largest_rms_A(), 5.0, 1e-12);
}

}  // namespace
