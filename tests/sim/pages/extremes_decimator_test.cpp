// Thinning a channel: what a picture of it must not lose.
#include "sim/pages/extremes_decimator.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

namespace {

struct Thinned {
    std::vector<double> samples;
    std::vector<int> bucket_ends;  ///< index of the first sample of the next bucket
    sim::Trace trace;
};

/// Sample k is at time k. Bucket lengths are drawn, too.
Thinned thin(std::vector<double> samples, unsigned seed) {
    std::mt19937 random(seed);
    std::uniform_int_distribution<int> length(1, 40);
    Thinned thinned;
    thinned.samples = std::move(samples);
    sim::ExtremesDecimator decimator;
    int end = length(random);
    for (int k = 0; k < static_cast<int>(thinned.samples.size()); ++k) {
        if (k == end) {
            decimator.close_bucket();
            thinned.bucket_ends.push_back(k);
            end += length(random);
        }
        decimator.add(k, thinned.samples[static_cast<std::size_t>(k)]);
    }
    thinned.bucket_ends.push_back(static_cast<int>(thinned.samples.size()));
    thinned.trace = decimator.finish();
    return thinned;
}

/// Walks, waves and spikes.
std::vector<std::vector<double>> signals() {
    std::vector<std::vector<double>> all;
    for (unsigned seed = 1; seed <= 20; ++seed) {
        std::mt19937 random(seed);
        std::normal_distribution<double> step;
        std::vector<double> walk;
        std::vector<double> wave;
        std::vector<double> spikes;
        double value = 0.0;
        for (int k = 0; k < 2000; ++k) {
            value += step(random);
            walk.push_back(value);
            wave.push_back(std::round(100.0 * std::sin(0.037 * seed * k)));
            spikes.push_back(random() % 97 == 0 ? step(random) : 0.0);
        }
        all.push_back(walk);
        all.push_back(wave);
        all.push_back(spikes);
    }
    return all;
}

TEST(ExtremesDecimator, KeepsTheSmallestAndTheLargestOfEveryBucket) {
    unsigned seed = 0;
    for (const std::vector<double>& signal : signals()) {
        const Thinned thinned = thin(signal, ++seed);
        int begin = 0;
        std::size_t point = 0;
        for (const int end : thinned.bucket_ends) {
            const auto [smallest, largest] =
                std::minmax_element(signal.begin() + begin, signal.begin() + end);
            double kept_smallest = HUGE_VAL;
            double kept_largest = -HUGE_VAL;
            for (; point < thinned.trace.time_s.size() && thinned.trace.time_s[point] < end;
                 ++point) {
                kept_smallest = std::min(kept_smallest, thinned.trace.value[point]);
                kept_largest = std::max(kept_largest, thinned.trace.value[point]);
            }
            ASSERT_EQ(kept_smallest, *smallest) << "bucket from " << begin;
            ASSERT_EQ(kept_largest, *largest) << "bucket from " << begin;
            begin = end;
        }
    }
}

TEST(ExtremesDecimator, KeepsOnlySamplesEachAtItsOwnTimeInRisingOrder) {
    unsigned seed = 0;
    for (const std::vector<double>& signal : signals()) {
        const sim::Trace trace = thin(signal, ++seed).trace;
        ASSERT_EQ(trace.time_s.size(), trace.value.size());
        double before = -1.0;
        for (std::size_t k = 0; k < trace.time_s.size(); ++k) {
            ASSERT_GT(trace.time_s[k], before);
            before = trace.time_s[k];
            ASSERT_EQ(trace.value[k], signal.at(static_cast<std::size_t>(before)));
        }
    }
}

TEST(ExtremesDecimator, KeepsTheFirstAndTheLastSample) {
    unsigned seed = 0;
    for (const std::vector<double>& signal : signals()) {
        const sim::Trace trace = thin(signal, ++seed).trace;
        EXPECT_EQ(trace.time_s.front(), 0.0);
        EXPECT_EQ(trace.time_s.back(), static_cast<double>(signal.size() - 1));
    }
}

TEST(ExtremesDecimator, KeepsAtMostTwoPointsOfABucket) {
    unsigned seed = 0;
    for (const std::vector<double>& signal : signals()) {
        const Thinned thinned = thin(signal, ++seed);
        EXPECT_LE(thinned.trace.time_s.size(), 2 * thinned.bucket_ends.size() + 2);
    }
}

TEST(ExtremesDecimator, OfNothingKeepsNothing) {
    sim::ExtremesDecimator decimator;
    decimator.close_bucket();
    EXPECT_TRUE(decimator.finish().time_s.empty());
}

}  // namespace
