#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <random>

#include "firmware/arithmetic/arc_tangent.hpp"
#include "firmware/arithmetic/sine.hpp"
#include "firmware/arithmetic/square_root.hpp"

namespace {

using namespace firmware;

constexpr double turn_counts = 4294967296.0;
const double two_pi = 2.0 * std::acos(-1.0);

TEST(SquareRoot, IsTheLargestWholeNumberWhoseSquareFits) {
    std::mt19937_64 random(1);
    for (int i = 0; i < 200000; ++i) {
        const std::uint64_t n = random() >> (random() % 64);
        const std::uint64_t root = square_root(n);
        EXPECT_LE(root * root, n);
        if (root < 0xFFFFFFFFU) {
            EXPECT_GT((root + 1) * (root + 1), n);
        }
    }
}

TEST(SquareRoot, IsExactAroundEverySquareOf16Bits) {
    for (std::uint32_t root = 1; root < 65536; ++root) {
        const std::uint32_t square = root * root;
        ASSERT_EQ(square_root(square), root);
        ASSERT_EQ(square_root(square - 1), root - 1);
    }
}

TEST(SquareRoot, HandlesBothEnds) {
    EXPECT_EQ(square_root(std::uint32_t{0}), 0U);
    EXPECT_EQ(square_root(std::uint64_t{0}), 0U);
    EXPECT_EQ(square_root(std::uint32_t{0xFFFFFFFFU}), 65535U);
    EXPECT_EQ(square_root(std::uint64_t{0xFFFFFFFFFFFFFFFFULL}), 0xFFFFFFFFU);
}

TEST(Sine, StaysWithinItsPromisedErrorAllTheWayRound) {
    double worst = 0.0;
    for (std::uint64_t count = 0; count < (1ULL << 32); count += 49999) {
        const double angle = two_pi * static_cast<double>(count) / turn_counts;
        const double error = sine(Phase{static_cast<std::uint32_t>(count)}) -
                             static_cast<double>(sine_one) * std::sin(angle);
        worst = std::max(worst, std::fabs(error));
    }
    EXPECT_LE(worst, 1.1);
    EXPECT_GT(worst, 0.1);  // a table cannot be better than its own rounding
}

TEST(Sine, IsOddAndCosineLeadsByAQuarter) {
    for (std::uint32_t count = 1; count < 0x7FFF0000U; count += 7654321U) {
        EXPECT_EQ(sine(Phase{count}), -sine(Phase{0U - count}));
        EXPECT_EQ(cosine(Phase{count}), sine(Phase{count + 0x40000000U}));
    }
    EXPECT_EQ(sine(Phase{0U}), 0);
    EXPECT_EQ(sine(Phase{0x40000000U}), sine_one);
    EXPECT_EQ(sine(Phase{0xC0000000U}), -sine_one);
}

TEST(ArcTangent, FindsThePhaseOfAVectorInEveryDirection) {
    for (int i = 0; i < 3600; ++i) {
        const double angle = two_pi * i / 3600.0;
        for (const double length : {2000.0, 30000.0, 5.0e6}) {
            const auto x = static_cast<std::int32_t>(std::lround(length * std::cos(angle)));
            const auto y = static_cast<std::int32_t>(std::lround(length * std::sin(angle)));
            const double exact = std::atan2(y, x) / two_pi * turn_counts;
            const auto reference =
                static_cast<std::uint32_t>(static_cast<std::int64_t>(std::llround(exact)));
            const std::int32_t off = phase_of_vector(x, y).ahead_of(Phase{reference});
            EXPECT_LT(std::abs(off) / turn_counts * 360.0, length < 5000.0 ? 0.2 : 0.02)
                << angle << " " << length;
        }
    }
}

TEST(ArcTangent, OfNothingIsZero) {
    EXPECT_EQ(phase_of_vector(0, 0).count(), 0U);
}

}  // namespace
