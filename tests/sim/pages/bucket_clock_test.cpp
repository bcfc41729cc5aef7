// How finely the waves of a start are kept.
#include "sim/pages/bucket_clock.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <vector>

namespace {

constexpr std::int64_t ticks_per_second = 10000;

/// Ticks at which a bucket ends.
std::vector<std::int64_t> ends(double duration_s, double call_on_s,
                               const std::set<std::int64_t>& events) {
    sim::BucketClock clock(duration_s, call_on_s);
    std::vector<std::int64_t> found;
    const auto last = static_cast<std::int64_t>(duration_s * ticks_per_second);
    for (std::int64_t tick = 0; tick <= last; ++tick) {
        if (clock.ends_at(tick, events.count(tick) == 1)) {
            found.push_back(tick);
        }
    }
    return found;
}

/// Length of the bucket that ends next after a time.
double bucket_s(const std::vector<std::int64_t>& found, double time_s) {
    const auto next = std::upper_bound(found.begin() + 1, found.end(),
                                       static_cast<std::int64_t>(time_s * ticks_per_second));
    return static_cast<double>(*next - *std::prev(next)) / ticks_per_second;
}

TEST(BucketClock, IsFineAfterTheCallAndCoarseBeforeAndLater) {
    const auto found = ends(20.0, 5.0, {});
    EXPECT_DOUBLE_EQ(bucket_s(found, 2.0), 10e-3);
    EXPECT_DOUBLE_EQ(bucket_s(found, 5.1), 0.5e-3);
    EXPECT_DOUBLE_EQ(bucket_s(found, 7.9), 0.5e-3);
    EXPECT_DOUBLE_EQ(bucket_s(found, 9.0), 10e-3);
}

TEST(BucketClock, LooksCloselyAtWhatHappensLater) {
    const auto found = ends(20.0, 0.0, {153210});
    EXPECT_DOUBLE_EQ(bucket_s(found, 15.0), 10e-3);
    EXPECT_DOUBLE_EQ(bucket_s(found, 15.4), 0.5e-3);
    EXPECT_DOUBLE_EQ(bucket_s(found, 16.0), 10e-3);
    EXPECT_TRUE(std::binary_search(found.begin(), found.end(), 153210));
}

TEST(BucketClock, MakesNoMoreBucketsHoweverLongTheRunIsAndHoweverMuchHappens) {
    std::set<std::int64_t> events;
    for (std::int64_t tick = 0; tick < 7200 * ticks_per_second; tick += 20000) {
        events.insert(tick);
    }
    // Fine ones for most_fine_s, coarse ones, and one more that each event cuts.
    const std::size_t most = 12000 + 4000 + events.size();
    EXPECT_LE(ends(7200.0, 0.0, events).size(), most);
    EXPECT_LE(ends(7200.0, 0.0, {}).size(), 6000U + 4000U);
}

}  // namespace
