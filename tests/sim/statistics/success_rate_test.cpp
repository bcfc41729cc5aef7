// The Wilson interval, against published values and against its own promise.
#include "sim/statistics/success_rate.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace {

using sim::SuccessRate;

// R. G. Newcombe, Statistics in Medicine 17 (1998), p. 857, table I, score method without
// continuity correction (memory).
TEST(SuccessRate, HasThePublishedIntervals) {
    EXPECT_NEAR((SuccessRate{81, 263}.lowest()), 0.2553, 5e-5);
    EXPECT_NEAR((SuccessRate{81, 263}.highest()), 0.3662, 5e-5);
    EXPECT_NEAR((SuccessRate{15, 148}.lowest()), 0.0624, 5e-5);
    EXPECT_NEAR((SuccessRate{15, 148}.highest()), 0.1605, 5e-5);
    EXPECT_NEAR((SuccessRate{0, 20}.lowest()), 0.0, 1e-12);
    EXPECT_NEAR((SuccessRate{0, 20}.highest()), 0.1611, 5e-5);
    EXPECT_NEAR((SuccessRate{1, 29}.lowest()), 0.0061, 5e-5);
    EXPECT_NEAR((SuccessRate{1, 29}.highest()), 0.1718, 5e-5);
}

/// How often the interval of n trials holds the true share: summed over the binomial distribution.
double coverage(double share, int trials) {
    double sum = 0.0;
    for (int k = 0; k <= trials; ++k) {
        const SuccessRate rate{k, trials};
        if (rate.lowest() <= share && share <= rate.highest()) {
            sum += std::exp(std::lgamma(trials + 1.0) - std::lgamma(k + 1.0) -
                            std::lgamma(trials - k + 1.0) + k * std::log(share) +
                            (trials - k) * std::log(1.0 - share));
        }
    }
    return sum;
}

TEST(SuccessRate, HoldsTheTrueShareInAboutNineteenCasesOfTwenty) {
    double mean = 0.0;
    int count = 0;
    for (double share = 0.10; share < 0.995; share += 0.01) {
        mean += coverage(share, 200);
        ++count;
    }
    EXPECT_NEAR(mean / count, 0.95, 0.005);
}

TEST(SuccessRate, NarrowsWithTrialsAndNeverLeavesZeroToOne) {
    double before = 1.0;
    for (const int trials : {10, 20, 50, 200, 1000}) {
        const SuccessRate all{trials, trials};
        EXPECT_LE(all.highest(), 1.0);
        EXPECT_LT(1.0 - all.lowest(), before);
        before = 1.0 - all.lowest();
        EXPECT_GE((SuccessRate{0, trials}.lowest()), 0.0);
    }
    EXPECT_NEAR((SuccessRate{200, 200}.lowest()), 0.981, 5e-4);
}

TEST(SuccessRate, KnowsNothingWithoutTrials) {
    const SuccessRate none;
    EXPECT_EQ(none.lowest(), 0.0);
    EXPECT_EQ(none.highest(), 1.0);
}

}  // namespace
