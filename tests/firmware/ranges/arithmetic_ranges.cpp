// Roots, sines and phases over the whole range that they promise, against wider arithmetic.
#include <gtest/gtest.h>

#include <limits>

#include "firmware/arithmetic/arc_tangent.hpp"
#include "firmware/arithmetic/extremes.hpp"
#include "firmware/arithmetic/sine.hpp"
#include "firmware/arithmetic/square_root.hpp"
#include "ranges/wide.hpp"

namespace {

using namespace firmware;
using ranges_test::values_of;
using ranges_test::Wide;

constexpr std::int64_t uint_max = std::numeric_limits<std::uint32_t>::max();

template <class Unsigned>
void expect_root(Unsigned n) {
    const Wide root = square_root(n);
    EXPECT_TRUE(root * root <= Wide{n}) << n;
    EXPECT_TRUE((root + 1) * (root + 1) > Wide{n}) << n;
}

TEST(Ranges, SquareRootsHoldOverTheirWholeTypes) {
    for (const std::int64_t value : values_of(0, uint_max, 20000)) {
        expect_root(static_cast<std::uint32_t>(value));
    }
    for (const std::int64_t value : values_of(std::numeric_limits<std::int64_t>::min(),
                                              std::numeric_limits<std::int64_t>::max(), 20000)) {
        expect_root(static_cast<std::uint64_t>(value));
    }
}

TEST(Ranges, SinesStayWithinOneForEveryPhase) {
    for (const std::int64_t count : values_of(0, uint_max, 50000)) {
        const Phase phase{static_cast<std::uint32_t>(count)};
        const Wide sum = Wide{sine(phase)} * sine(phase) + Wide{cosine(phase)} * cosine(phase);
        const Wide one = Wide{sine_one} * sine_one;
        // Two errors of 1.1 counts each, at most.
        EXPECT_TRUE(sum > one - 4 * sine_one && sum < one + 4 * sine_one) << count;
        EXPECT_LE(sine(phase), sine_one);
        EXPECT_GE(sine(phase), -sine_one);
    }
}

TEST(Ranges, PhasesOfVectorsHoldUpToTheLongestThatAreTaken) {
    constexpr std::int64_t longest = std::int64_t{1} << 29;
    for (const std::int64_t x : values_of(-longest, longest)) {
        for (const std::int64_t y : values_of(-longest, longest)) {
            const Phase phase =
                phase_of_vector(static_cast<std::int32_t>(x), static_cast<std::int32_t>(y));
            // Turned back by its phase the vector lies on the axis: across it lies next to nothing.
            const Wide across = Wide{y} * cosine(phase) - Wide{x} * sine(phase);
            const Wide along = Wide{x} * cosine(phase) + Wide{y} * sine(phase);
            if (Wide{x} * x + Wide{y} * y > Wide{2000} * 2000) {
                EXPECT_TRUE((across < 0 ? -across : across) * 250 < along) << x << " " << y;
            }
        }
    }
}

TEST(Ranges, ExtremesAreThoseOfTheWholeType) {
    for (const std::int64_t a : values_of(-uint_max, uint_max)) {
        for (const std::int64_t b : values_of(-uint_max, uint_max, 20)) {
            EXPECT_EQ(smaller(a, b), a < b ? a : b);
            EXPECT_EQ(larger(a, b), a < b ? b : a);
        }
    }
}

}  // namespace
