#include "sim/campaigns/parallel_cases.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <stdexcept>
#include <vector>

namespace {

TEST(ParallelCases, RunEachOnce) {
    for (const int threads : {1, 2, 7}) {
        std::vector<std::atomic<int>> done(20);
        EXPECT_TRUE(
            sim::run_cases(done.size(), threads, [&done](std::size_t k) { ++done[k]; }, {}));
        for (const std::atomic<int>& one : done) {
            EXPECT_EQ(one, 1) << threads;
        }
    }
    EXPECT_TRUE(sim::run_cases(0, 3, [](std::size_t) { FAIL(); }, {}));
}

TEST(ParallelCases, AFailureReachesWhoeverAsked) {
    const auto fails_at_four = [](std::size_t k) {
        if (k == 4) {
            throw std::runtime_error("four");
        }
    };
    EXPECT_THROW(sim::run_cases(10, 3, fails_at_four, {}), std::runtime_error);
}

TEST(ParallelCases, AreCountedOneByOneAndStoppedWhenProgressSaysSo) {
    int last = 0;
    std::atomic<int> ran{0};
    const auto until_five = [&last](int done, int of) {
        EXPECT_EQ(done, last + 1);
        EXPECT_EQ(of, 20);
        last = done;
        return done < 5;
    };
    EXPECT_FALSE(sim::run_cases(
        20, 1, [&ran](std::size_t) { ++ran; }, until_five));
    EXPECT_EQ(ran, 5);
}

}  // namespace
