// The interval of a median, and of the probability that one group lies above another.
#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <vector>

#include "sim/statistics/median_interval.hpp"
#include "sim/statistics/rank_separation.hpp"

namespace {

std::vector<double> counting_to(int last) {
    std::vector<double> values;
    for (int k = last; k >= 1; --k) {
        values.push_back(k);
    }
    return values;
}

// A textbook's table of such intervals (its Table A.7, read in an online copy): the narrowest with
// at least 95 %.
TEST(MedianInterval, ReachesBetweenTheRanksOfAPrintedTable) {
    struct Row {
        int n;
        int lowest;
        int highest;
    };
    for (const Row row :
         {Row{6, 1, 6}, Row{7, 1, 7}, Row{8, 1, 8}, Row{9, 2, 8}, Row{10, 2, 9}, Row{11, 2, 10},
          Row{12, 3, 10}, Row{13, 3, 11}, Row{14, 3, 12}, Row{15, 4, 12}, Row{16, 4, 13},
          Row{17, 5, 13}, Row{18, 5, 14}, Row{19, 5, 15}, Row{20, 6, 15}}) {
        const auto result = sim::median_with_interval(counting_to(row.n));
        ASSERT_TRUE(result && result->interval) << row.n;
        EXPECT_DOUBLE_EQ(result->median, 0.5 * (row.n + 1));
        EXPECT_EQ(result->interval->first, row.lowest) << row.n;
        EXPECT_EQ(result->interval->second, row.highest) << row.n;
    }
}

TEST(MedianInterval, OfTooFewValuesIsNone) {
    EXPECT_FALSE(sim::median_with_interval({}));
    const auto five = sim::median_with_interval({3.0, 1.0, 2.0, 5.0, 4.0});
    ASSERT_TRUE(five);
    EXPECT_EQ(five->median, 3.0);
    EXPECT_FALSE(five->interval);
}

TEST(MedianInterval, CoversTheTrueMedianOfASkewedDistribution) {
    std::mt19937 random(2);
    std::exponential_distribution<double> skewed(1.0);
    int covered = 0;
    constexpr int trials = 2000;
    for (int trial = 0; trial < trials; ++trial) {
        std::vector<double> values;
        for (int k = 0; k < 35; ++k) {
            values.push_back(skewed(random));
        }
        const auto result = sim::median_with_interval(values);
        covered +=
            result->interval->first <= std::log(2.0) && std::log(2.0) <= result->interval->second;
    }
    // At least 95 %; the ranks of 35 values give 95.9 %.
    EXPECT_GE(covered, 1880);
    EXPECT_LE(covered, 1960);
}

TEST(Quantile, LiesBetweenNeighbours) {
    EXPECT_DOUBLE_EQ(sim::quantile_of_sorted({1.0, 2.0, 4.0}, 0.75), 3.0);
    EXPECT_DOUBLE_EQ(sim::quantile_of_sorted({7.0}, 0.9), 7.0);
    EXPECT_DOUBLE_EQ(sim::quantile_of_sorted({1.0, 9.0}, 1.0), 9.0);
}

TEST(RankSeparation, CountsPairsAndHalvesTies) {
    // Of the 3 x 4 pairs: 3 below nothing, ... counted one by one.
    const std::vector<double> first = {2.0, 5.0, 5.0};
    const std::vector<double> second = {1.0, 2.0, 5.0, 9.0};
    double won = 0.0;
    for (const double a : first) {
        for (const double b : second) {
            won += a > b ? 1.0 : (a < b ? 0.0 : 0.5);
        }
    }
    const auto result = sim::rank_separation(first, second, 0.95);
    ASSERT_TRUE(result);
    EXPECT_DOUBLE_EQ(result->probability, won / 12.0);
    EXPECT_LT(result->lowest, result->probability);
    EXPECT_GT(result->highest, result->probability);
}

TEST(RankSeparation, TurnsRoundWithItsGroups) {
    const std::vector<double> first = {2.0, 5.0, 6.0, 7.5};
    const std::vector<double> second = {1.0, 2.0, 5.0, 9.0, 3.0};
    const auto one = sim::rank_separation(first, second, 0.9);
    const auto other = sim::rank_separation(second, first, 0.9);
    EXPECT_NEAR(one->probability, 1.0 - other->probability, 1e-15);
    EXPECT_NEAR(one->lowest, 1.0 - other->highest, 1e-12);
}

TEST(RankSeparation, OfGroupsThatDoNotOverlapKeepsDoubtAboutTheWeakerEnd) {
    const auto few = sim::rank_separation({5.0, 6.0, 7.0}, {1.0, 2.0, 3.0}, 0.95);
    EXPECT_EQ(few->probability, 1.0);
    EXPECT_EQ(few->highest, 1.0);
    EXPECT_LT(few->lowest, 0.9);
    const auto more = sim::rank_separation({5.0, 6.0, 7.0, 8.0, 9.0, 5.5, 6.5, 7.5},
                                           {1.0, 2.0, 3.0, 0.5, 1.5, 2.5, 3.5, 0.1}, 0.95);
    EXPECT_GT(more->lowest, few->lowest);
    EXPECT_FALSE(sim::rank_separation({1.0}, {2.0, 3.0}, 0.95));
}

TEST(RankSeparation, CoversTheTrueProbabilityAboutAsOftenAsItSays) {
    std::mt19937 random(9);
    std::normal_distribution<double> low(0.0, 1.0);
    std::normal_distribution<double> high(1.0, 1.0);
    // P(X > Y) of two normals one standard deviation apart: Phi(1 / sqrt 2).
    const double truth = 0.5 * std::erfc(-0.5);
    int covered = 0;
    constexpr int trials = 2000;
    for (int trial = 0; trial < trials; ++trial) {
        std::vector<double> first;
        std::vector<double> second;
        for (int k = 0; k < 15; ++k) {
            first.push_back(high(random));
        }
        for (int k = 0; k < 60; ++k) {
            second.push_back(low(random));
        }
        const auto result = sim::rank_separation(first, second, 0.95);
        covered += result->lowest <= truth && truth <= result->highest;
    }
    EXPECT_GE(covered, 1850);
    EXPECT_LE(covered, 1970);
}

}  // namespace
