// The order of a campaign: every case once, and evenly from the beginning.
#include "sim/regression/case_order.hpp"

#include <gtest/gtest.h>

#include <set>
#include <vector>

namespace {

using sim::CaseOrder;
using sim::Shard;

TEST(CaseOrder, HasEveryCaseOnce) {
    for (const std::int64_t cases : {1, 2, 3, 4, 6, 60, 97, 1000, 10000, 30030}) {
        const CaseOrder order(cases);
        std::vector<bool> seen(static_cast<std::size_t>(cases));
        for (std::int64_t place = 0; place < cases; ++place) {
            const std::int64_t id = order.id_at(place);
            ASSERT_GE(id, 0);
            ASSERT_LT(id, cases);
            EXPECT_FALSE(seen[static_cast<std::size_t>(id)]) << id << " of " << cases;
            seen[static_cast<std::size_t>(id)] = true;
        }
    }
}

TEST(CaseOrder, MeetsEveryValueOfAnInnerSideBeforeAnyTwice) {
    constexpr std::int64_t cases = 6 * 5 * 4 * 25;
    const CaseOrder order(cases);
    for (const std::int64_t side : {4, 5, 6, 20, 25}) {
        for (std::int64_t first = 0; first + side <= cases; first += side) {
            std::set<std::int64_t> met;
            for (std::int64_t k = 0; k < side; ++k) {
                met.insert(order.id_at(first + k) % side);
            }
            EXPECT_EQ(met.size(), static_cast<std::size_t>(side)) << side << " from " << first;
        }
    }
}

TEST(CaseOrder, SamplesTheOuterSideEvenlyFromTheBeginning) {
    constexpr std::int64_t cases = 10000;
    constexpr std::int64_t blocks = 10;
    const CaseOrder order(cases);
    std::vector<int> met(blocks);
    for (std::int64_t place = 0; place < 200; ++place) {
        ++met[static_cast<std::size_t>(order.id_at(place) * blocks / cases)];
        for (const int count : met) {
            EXPECT_NEAR(count, static_cast<double>(place + 1) / blocks, 2.0) << place;
        }
    }
}

TEST(CaseOrder, DoesNotRunOutOfNumbers) {
    const std::int64_t cases = (std::int64_t{1} << 31) - 1;
    EXPECT_GE(CaseOrder(cases).id_at(cases - 1), 0);
    EXPECT_LT(CaseOrder(cases).id_at(cases - 1), cases);
}

TEST(Shards, TogetherAreTheWholeAndNoneIsTwice) {
    for (const std::int64_t cases : {0, 1, 4, 7, 100, 10001}) {
        for (const int total : {1, 2, 5, 7, 100}) {
            std::int64_t next = 0;
            for (int index = 1; index <= total; ++index) {
                const Shard shard{index, total};
                EXPECT_EQ(shard.begin(cases), next);
                next = shard.end(cases);
                EXPECT_LE(next - shard.begin(cases), cases / total + 1);
            }
            EXPECT_EQ(next, cases);
        }
    }
}

}  // namespace
