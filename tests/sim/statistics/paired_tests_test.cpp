// Signed ranks, changed verdicts and the correction for many tests, against printed examples and
// against plain counting.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include "sim/statistics/holm.hpp"
#include "sim/statistics/midranks.hpp"
#include "sim/statistics/paired_rates.hpp"
#include "sim/statistics/signed_rank.hpp"

namespace {

/// Every one of the 2^n assignments of signs, one by one.
double p_by_enumeration(const std::vector<double>& differences) {
    std::vector<double> sizes;
    for (const double one : differences) {
        sizes.push_back(std::abs(one));
    }
    const std::vector<double> ranks = sim::midranks(sizes);
    double reached = 0.0;
    double all = 0.0;
    for (std::size_t k = 0; k < ranks.size(); ++k) {
        reached += differences[k] > 0.0 ? ranks[k] : 0.0;
        all += ranks[k];
    }
    const double from_middle = std::abs(reached - 0.5 * all);
    std::uint64_t as_far = 0;
    const std::uint64_t assignments = std::uint64_t{1} << ranks.size();
    for (std::uint64_t signs = 0; signs < assignments; ++signs) {
        double sum = 0.0;
        for (std::size_t k = 0; k < ranks.size(); ++k) {
            sum += ((signs >> k) & 1U) != 0U ? ranks[k] : 0.0;
        }
        as_far += std::abs(sum - 0.5 * all) >= from_middle ? 1U : 0U;
    }
    return static_cast<double>(as_far) / static_cast<double>(assignments);
}

// Hollander and Wolfe, Nonparametric Statistical Methods, Table 3.1 (nine patients before and
// after; the table as printed in course notes of Washington University, "WcxSignRank.txt"). T- = 5
// of 45: 10 of 512 assignments lie as low, two-sided 20 / 512.
TEST(SignedRank, IsThePrintedExampleOfNinePatients) {
    const std::vector<double> differences = {-0.952, 0.147,  -1.022, -0.430, -0.620,
                                             -0.590, -0.490, 0.080,  -0.010};
    const sim::SignedRank test = sim::signed_rank_test(differences);
    EXPECT_EQ(test.positive, 2U);
    EXPECT_EQ(test.negative, 7U);
    EXPECT_DOUBLE_EQ(test.positive_ranks, 5.0);
    EXPECT_DOUBLE_EQ(test.negative_ranks, 40.0);
    EXPECT_TRUE(test.exact);
    EXPECT_NEAR(test.p_value, 20.0 / 512.0, 1e-15);
    EXPECT_NEAR(test.lean(), -35.0 / 45.0, 1e-15);
}

// Same notes, "WcxSignRankMr.txt": eleven pairs with three groups of ties.
TEST(SignedRank, SharesRanksAsInThePrintedExampleWithTies) {
    const std::vector<double> differences = {11, 4, 3, -2, 13, 2, 7, 4, 3, -3, 12};
    const sim::SignedRank test = sim::signed_rank_test(differences);
    EXPECT_DOUBLE_EQ(test.negative_ranks, 5.5);
    EXPECT_DOUBLE_EQ(test.positive_ranks, 60.5);
    EXPECT_NEAR(test.p_value, p_by_enumeration(differences), 1e-14);
}

TEST(SignedRank, CountsWhatEnumerationCounts) {
    std::mt19937 random(7);
    // Few sizes: many ties.
    std::uniform_int_distribution<int> size(1, 6);
    std::bernoulli_distribution up(0.65);
    for (int trial = 0; trial < 20; ++trial) {
        std::vector<double> differences;
        for (int k = 0; k < 4 + trial % 10; ++k) {
            differences.push_back(up(random) ? size(random) : -size(random));
        }
        EXPECT_NEAR(sim::signed_rank_test(differences).p_value, p_by_enumeration(differences),
                    1e-13);
    }
}

TEST(SignedRank, LeavesZerosOutAndCountsThem) {
    const sim::SignedRank with = sim::signed_rank_test({0.0, 1.0, -2.0, 0.0, 3.0, 4.0, 0.0});
    const sim::SignedRank without = sim::signed_rank_test({1.0, -2.0, 3.0, 4.0});
    EXPECT_EQ(with.zero, 3U);
    EXPECT_EQ(with.p_value, without.p_value);
    EXPECT_EQ(sim::signed_rank_test({0.0, 0.0}).p_value, 1.0);
    EXPECT_EQ(sim::signed_rank_test({}).p_value, 1.0);
}

/// Differences of `sizes` sizes, more of them positive; no two equal if `sizes` is 0.
std::vector<double> leaning(std::size_t count, int sizes, std::mt19937& random) {
    std::uniform_int_distribution<int> size(1, std::max(1, sizes));
    std::bernoulli_distribution up(0.6);
    std::vector<double> differences;
    for (std::size_t k = 0; k < count; ++k) {
        const double one = sizes == 0 ? static_cast<double>(k + 1) : size(random);
        differences.push_back(up(random) ? one : -one);
    }
    return differences;
}

TEST(SignedRank, GoesOverToTheApproximationWithoutAJumpHoweverManyTiesThereAre) {
    std::mt19937 random(3);
    for (const int sizes : {0, 2, 3, 10}) {
        for (int trial = 0; trial < 10; ++trial) {
            const auto differences = leaning(sim::most_exact_differences, sizes, random);
            // Two midranks are far apart when there are few sizes: the steps of the exact sum are
            // coarse, and half a rank is less than half a step.
            const double tolerance = sizes == 0 ? 0.03 : 0.12;
            const double exact = sim::exact_signed_rank_p(differences);
            const double approximate = sim::approximate_signed_rank_p(differences);
            if (exact > 0.005) {
                EXPECT_NEAR(approximate, exact, tolerance * exact) << sizes;
            } else {
                // Far out a normal's tail is the longer one: on the safe side.
                EXPECT_GT(approximate, 0.95 * exact) << sizes;
            }
        }
    }
}

// The printed example with ties, by hand: T- = 5.5, mean 33, variance 11 * 12 * 23 / 24 less
// (2 * 6 + 24) / 48, half a rank of continuity; a normal's two tails are erfc(z / sqrt 2).
TEST(SignedRank, IsApproximatedAsTheFormulaSays) {
    const std::vector<double> differences = {11, 4, 3, -2, 13, 2, 7, 4, 3, -3, 12};
    const double z = (33.0 - 5.5 - 0.5) / std::sqrt(126.5 - 0.75);
    EXPECT_NEAR(sim::approximate_signed_rank_p(differences), std::erfc(z / std::sqrt(2.0)), 1e-12);
}

TEST(SignedRank, FindsNothingInFivePercentOfAnythingWithoutALean) {
    std::mt19937 random(11);
    std::student_t_distribution<double> heavy_tails(2.0);
    int found = 0;
    constexpr int trials = 2000;
    for (int trial = 0; trial < trials; ++trial) {
        std::vector<double> differences;
        for (int k = 0; k < 40; ++k) {
            differences.push_back(heavy_tails(random));
        }
        found += sim::signed_rank_test(differences).p_value <= 0.05 ? 1 : 0;
    }
    // 5 % of 2000 with four standard deviations of 9.7.
    EXPECT_NEAR(found, 100, 39);
}

// Armitage and Berry, Statistical Methods in Medical Research, p. 127 (two media for culturing, as
// quoted in the manual of a statistics program, with its result): 12 against 2, P = 0.0129.
TEST(PairedRates, IsThePrintedExampleOfTwoMedia) {
    const sim::PairedRates rates{20, 12, 2, 16};
    EXPECT_NEAR(rates.p_value(), 0.0129, 5e-5);
    EXPECT_DOUBLE_EQ(rates.difference(), -0.2);
}

// Bentur et al. in Fagerland, Lydersen and Laake, BMC Med. Res. Methodol. 13 (2013) 91: 21
// children, 7 changed one way and 1 the other. The value: 2 (1 + 8) / 2^8, counted by hand.
TEST(PairedRates, IsThePublishedExampleOfTwentyOneChildren) {
    const sim::PairedRates rates{1, 1, 7, 12};
    EXPECT_NEAR(rates.p_value(), 18.0 / 256.0, 1e-14);
}

TEST(PairedRates, SaysNothingWithoutAChangedVerdict) {
    const sim::PairedRates rates{90, 0, 0, 10};
    EXPECT_EQ(rates.p_value(), 1.0);
    EXPECT_EQ(rates.difference(), 0.0);
    EXPECT_LT(rates.difference_lowest(), 0.0);
    EXPECT_GT(rates.difference_highest(), 0.0);
    EXPECT_EQ(sim::PairedRates{}.p_value(), 1.0);
}

TEST(PairedRates, HaveAnIntervalThatCoversTheTrueDifferenceAboutAsOftenAsItSays) {
    std::mt19937 random(5);
    std::discrete_distribution<int> cell({0.80, 0.06, 0.02, 0.12});
    int covered = 0;
    constexpr int trials = 2000;
    for (int trial = 0; trial < trials; ++trial) {
        sim::PairedRates rates;
        for (int k = 0; k < 100; ++k) {
            const int one = cell(random);
            rates.count(one <= 1, one == 0 || one == 2);
        }
        covered += rates.difference_lowest() <= -0.04 && rates.difference_highest() >= -0.04;
    }
    EXPECT_GE(covered, 1860);
    EXPECT_LE(covered, 1970);
}

// The example of a package's manual page for Holm's method (five values); its results by hand:
// sorted 0.001 x5, 0.007 x4, 0.014 x3, 0.031 x2, 0.042 x1, none less than one before.
TEST(Holm, MultipliesByWhatIsStillOpenAndNeverFalls) {
    const std::vector<double> adjusted = sim::holm_adjusted({0.042, 0.001, 0.031, 0.014, 0.007});
    const std::vector<double> by_hand = {0.062, 0.005, 0.062, 0.042, 0.028};
    ASSERT_EQ(adjusted.size(), by_hand.size());
    for (std::size_t k = 0; k < by_hand.size(); ++k) {
        EXPECT_NEAR(adjusted[k], by_hand[k], 1e-15);
    }
}

// Another manual's example: of these seven, at 5 %, the third and the last are found.
TEST(Holm, FindsWhatAPublishedExampleFinds) {
    const std::vector<double> adjusted =
        sim::holm_adjusted({0.50, 0.01, 0.001, 0.69, 0.02, 0.05, 0.0025});
    const std::vector<bool> found = {false, false, true, false, false, false, true};
    for (std::size_t k = 0; k < found.size(); ++k) {
        EXPECT_EQ(adjusted[k] < 0.05, found[k]) << k;
    }
    EXPECT_TRUE(sim::holm_adjusted({}).empty());
}

}  // namespace
