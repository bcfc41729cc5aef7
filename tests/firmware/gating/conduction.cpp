#include "firmware/gating/conduction.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace {

using namespace firmware;

const double pi = std::acos(-1.0);

// RMS current of an R-L load fired at an angle, as a fraction of full conduction: the closed-form
// current integrated numerically up to its zero.
double exact_fraction(double firing_deg, double power_factor) {
    const double a = firing_deg * pi / 180.0;
    const double f = std::acos(power_factor);
    if (a <= f) {
        return 1.0;
    }
    const auto current = [&](double t) {
        return std::sin(t - f) - std::sin(a - f) * std::exp(-(t - a) / std::tan(f));
    };
    double low = pi;
    double high = pi + f;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (current(middle) > 0.0 ? low : high) = middle;
    }
    const int steps = 4000;
    const double width = (low - a) / steps;
    double sum = 0.0;
    for (int i = 0; i < steps; ++i) {
        const double value = current(a + (i + 0.5) * width);
        sum += value * value * width;
    }
    return std::sqrt(2.0 / pi * sum);
}

TEST(Conduction, TheTableIsTheTheoryOfAnInductiveLoadAtPowerFactorSixTenths) {
    for (double angle = 45.0; angle <= 172.0; angle += 1.0) {
        const double table =
            conducted_per_ten_thousand(MilliDegrees{static_cast<std::int32_t>(angle * 1000)});
        EXPECT_NEAR(table / 1e4, exact_fraction(angle, 0.6), 0.004) << angle;
    }
}

// Covers: GT-06
TEST(Conduction, AtTheProbingAngleThePowerFactorHardlyMatters) {
    const double reference = exact_fraction(122.0, 0.6);
    for (double power_factor = 0.42; power_factor <= 0.75; power_factor += 0.01) {
        EXPECT_NEAR(exact_fraction(122.0, power_factor) / reference, 1.0, 0.035);
    }
}

TEST(Conduction, AngleAndFractionAreEachOthersInverse) {
    for (std::int32_t permille = 3; permille < 1000; permille += 5) {
        const MilliDegrees angle = firing_angle_for(Permille{permille});
        EXPECT_NEAR(conducted_per_ten_thousand(angle), permille * 10, 2) << permille;
    }
}

TEST(Conduction, MoreCurrentMeansAnEarlierAngleWithoutExceptions) {
    std::int32_t last = 200000;
    for (std::int32_t permille = -50; permille <= 1200; ++permille) {
        const std::int32_t angle = firing_angle_for(Permille{permille}).count();
        EXPECT_LE(angle, last);
        EXPECT_GE(angle, 53000);
        EXPECT_LE(angle, 173000);
        last = angle;
    }
}

TEST(Conduction, BothEndsOfTheTableHoldBeyondIt) {
    using namespace firmware;
    EXPECT_EQ(conducted_per_ten_thousand(MilliDegrees{0}), 10000);
    EXPECT_EQ(conducted_per_ten_thousand(MilliDegrees{180000}),
              conducted_per_ten_thousand(MilliDegrees{173000}));
}

}  // namespace
