// The interpolant between two ticks, against polynomials and sines.
#include "sim/metrics/hermite.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace {

constexpr double tick_s = 1e-4;

/// A cubic in time, which the interpolant must reproduce exactly.
double cubic(double t) {
    return 3.0 - 2e4 * t + 5e8 * t * t - 3e12 * t * t * t;
}
double cubic_slope(double t) {
    return -2e4 + 1e9 * t - 9e12 * t * t;
}

TEST(HermiteSpan, ReproducesEveryCubicWithItsSlope) {
    const sim::HermiteSpan span{cubic(0.0), cubic_slope(0.0), cubic(tick_s), cubic_slope(tick_s),
                                tick_s};
    for (int k = 0; k <= 20; ++k) {
        const double u = k / 20.0;
        EXPECT_NEAR(span.value(u), cubic(u * tick_s), 1e-12 * 3.0);
        EXPECT_NEAR(span.slope(u), cubic_slope(u * tick_s), 1e-12 * 1e5);
    }
}

TEST(HermiteSpan, FindsTheCrestOfASineOfAnyPhase) {
    const double omega = 2.0 * 3.14159265358979323846 * 60.0;
    for (int k = 1; k < 20; ++k) {
        // The crest lies at the share k/20 of the span.
        const double before = -k / 20.0 * tick_s;
        const auto value = [&](double t) { return -90.0 * std::cos(omega * t); };
        const auto slope = [&](double t) { return 90.0 * omega * std::sin(omega * t); };
        const sim::HermiteSpan span{value(before), slope(before), value(before + tick_s),
                                    slope(before + tick_s), tick_s};
        EXPECT_NEAR(span.extremum(), k / 20.0, 1e-4);
        EXPECT_NEAR(span.value(span.extremum()), -90.0, 90.0 * 1e-8);
    }
}

TEST(HermiteSpan, FindsACrossingWhetherTheValueRisesOrFalls) {
    const sim::HermiteSpan rising{100.0, 5e3, 100.9, 13e3, tick_s};
    const sim::HermiteSpan falling{-100.0, -5e3, -100.9, -13e3, tick_s};
    for (const double share : {0.05, 0.5, 0.95}) {
        const double level = 100.0 + 0.9 * share;
        EXPECT_NEAR(rising.value(rising.crossing(level)), level, 1e-12 * level);
        EXPECT_NEAR(falling.value(falling.crossing(-level)), -level, 1e-12 * level);
        EXPECT_NEAR(rising.crossing(level), falling.crossing(-level), 1e-12);
    }
}

}  // namespace
