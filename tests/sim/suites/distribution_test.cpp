// What chance draws: against the distributions' own cumulative functions, written down again here.
#include "sim/suites/distribution.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <random>
#include <vector>

namespace {

using sim::Distribution;

/// Largest distance between the drawn values' staircase and the function (Kolmogorov, Smirnov).
double distance_to(const Distribution& distribution, const std::function<double(double)>& share) {
    constexpr int count = 4000;
    std::mt19937_64 generator(5);
    std::uniform_real_distribution<double> even(0.0, 1.0);
    std::vector<double> values;
    for (int k = 0; k < count; ++k) {
        values.push_back(sim::drawn_value(distribution, even(generator)));
    }
    std::sort(values.begin(), values.end());
    double distance = 0.0;
    for (int k = 0; k < count; ++k) {
        const double below = share(values[static_cast<std::size_t>(k)]);
        distance = std::max({distance, std::abs(below - static_cast<double>(k) / count),
                             std::abs(below - static_cast<double>(k + 1) / count)});
    }
    return distance;
}

/// One of a thousand sets of 4,000 true draws is farther off (the test's asymptotic table, 1.95).
const double farthest = 1.95 / std::sqrt(4000.0);

double normal_share(double z) {
    return 0.5 * std::erfc(-z / std::sqrt(2.0));
}

double cut_normal(double value, double mean, double deviation, double lowest, double highest) {
    const double below = normal_share((lowest - mean) / deviation);
    const double all = normal_share((highest - mean) / deviation) - below;
    return (normal_share((value - mean) / deviation) - below) / all;
}

TEST(Distributions, OfEachKindAreDrawnAsTheirNamesSay) {
    EXPECT_LT(distance_to(sim::Uniform{2.0, 6.0}, [](double x) { return (x - 2.0) / 4.0; }),
              farthest);
    EXPECT_LT(distance_to(sim::Triangular{0.0, 1.0, 4.0},
                          [](double x) {
                              return x < 1.0 ? x * x / 4.0 : 1.0 - (4.0 - x) * (4.0 - x) / 12.0;
                          }),
              farthest);
    EXPECT_LT(distance_to(sim::TruncatedNormal{1.0, 0.1, 0.95, 1.3},
                          [](double x) { return cut_normal(x, 1.0, 0.1, 0.95, 1.3); }),
              farthest);
    EXPECT_LT(distance_to(sim::TruncatedLogNormal{300.0, 2.0, 180.0, 3600.0},
                          [](double x) {
                              return cut_normal(std::log(x), std::log(300.0), std::log(2.0),
                                                std::log(180.0), std::log(3600.0));
                          }),
              farthest);
}

TEST(Distributions, ThatAreWrongWouldBeSeenByThisMeasure) {
    EXPECT_GT(distance_to(sim::Uniform{2.0, 6.0}, [](double x) { return (x - 2.0) / 4.4; }),
              farthest);
    EXPECT_GT(distance_to(sim::TruncatedNormal{1.0, 0.1, 0.95, 1.3},
                          [](double x) { return cut_normal(x, 1.0, 0.12, 0.95, 1.3); }),
              farthest);
}

TEST(Distributions, NeverLeaveTheirEndsAndReachThem) {
    const std::vector<Distribution> all = {sim::FixedValue{1.5},
                                           sim::Uniform{-3.0, 7.0},
                                           sim::Triangular{0.0, 0.0, 4.0},
                                           sim::Triangular{0.0, 4.0, 4.0},
                                           sim::TruncatedNormal{0.0, 1e-3, -5.0, 5.0},
                                           sim::TruncatedNormal{1.0, 100.0, 0.9, 1.1},
                                           sim::TruncatedLogNormal{1.0, 1.0001, 0.5, 2.0},
                                           sim::TruncatedLogNormal{1.0, 900.0, 0.5, 2.0}};
    for (const Distribution& one : all) {
        const double lowest = sim::lowest_of(one);
        const double highest = sim::highest_of(one);
        double before = lowest;
        for (int k = 0; k <= 1000; ++k) {
            const double value = sim::drawn_value(one, 0.001 * k);
            EXPECT_GE(value, before) << "kind " << one.index() << " at " << k;
            EXPECT_LE(value, highest);
            before = value;
        }
    }
    EXPECT_EQ(sim::lowest_of(sim::TruncatedNormal{1.0, 100.0, 0.9, 1.1}), 0.9);
    EXPECT_NEAR(sim::highest_of(sim::Triangular{0.0, 0.0, 4.0}), 4.0, 1e-12);
}

}  // namespace
