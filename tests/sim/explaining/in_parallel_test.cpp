#include "sim/explaining/in_parallel.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <stdexcept>
#include <vector>

namespace {

TEST(InParallel, DoesEveryPieceOnce) {
    for (const int threads : {1, 2, 7}) {
        std::vector<std::atomic<int>> done(20);
        sim::in_parallel(done.size(), threads, [&done](std::size_t k) { ++done[k]; });
        for (const std::atomic<int>& one : done) {
            EXPECT_EQ(one, 1) << threads;
        }
    }
    sim::in_parallel(0, 3, [](std::size_t) { FAIL(); });
}

TEST(InParallel, AFailureReachesWhoeverAsked) {
    EXPECT_THROW(sim::in_parallel(10, 3,
                                  [](std::size_t k) {
                                      if (k == 4) {
                                          throw std::runtime_error("four");
                                      }
                                  }),
                 std::runtime_error);
}

}  // namespace
