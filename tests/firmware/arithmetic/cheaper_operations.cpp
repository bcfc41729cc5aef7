// What was made cheaper for small processors gives what the plain formula gives, for every input.
#include <gtest/gtest.h>

#include <cstdint>
#include <limits>
#include <random>

#include "firmware/arithmetic/quotient.hpp"
#include "firmware/arithmetic/square_root.hpp"
#include "firmware/measurement/cycle_rms.hpp"
#include "firmware/units/units.hpp"

namespace {

/// The long-hand method in base 2: the independent reference.
std::uint64_t long_hand_root(std::uint64_t n) {
    std::uint64_t root = 0;
    for (std::uint64_t bit = std::uint64_t{1} << 62; bit != 0; bit >>= 2) {
        if (n >= root + bit) {
            n -= root + bit;
            root = (root >> 1) + bit;
        } else {
            root >>= 1;
        }
    }
    return root;
}

/// Of every length alike: most errors live near the ends of ranges.
std::uint64_t of_any_length(std::mt19937_64& random) {
    return random() >> (random() % 64);
}

TEST(SquareRoot, Of16BitsIsTheLongHandOneForEveryNumber) {
    for (std::uint32_t n = 0; n < (1U << 16); ++n) {
        ASSERT_EQ(firmware::square_root(n), long_hand_root(n)) << n;
        const std::uint32_t high = n << 16;
        ASSERT_EQ(firmware::square_root(high), long_hand_root(high)) << high;
    }
}

TEST(SquareRoot, Of32And64BitsIsTheLongHandOne) {
    std::mt19937_64 random(3);
    for (int k = 0; k < 300000; ++k) {
        const std::uint64_t n = of_any_length(random);
        ASSERT_EQ(firmware::square_root(n), long_hand_root(n)) << n;
        const auto half = static_cast<std::uint32_t>(n);
        ASSERT_EQ(firmware::square_root(half), long_hand_root(half)) << half;
    }
}

TEST(SquareRoot, IsExactAroundEverySquare) {
    std::mt19937_64 random(4);
    for (int k = 0; k < 300000; ++k) {
        const std::uint64_t root = (of_any_length(random) & 0xFFFFFFFFU) | 1U;
        ASSERT_EQ(firmware::square_root(root * root), root);
        ASSERT_EQ(firmware::square_root(root * root - 1), root - 1);
        ASSERT_EQ(firmware::square_root(root * root + 2 * root), root);
    }
    const std::uint64_t largest = std::numeric_limits<std::uint64_t>::max();
    EXPECT_EQ(firmware::square_root(largest), 0xFFFFFFFFU);
}

TEST(Quotient, IsTheLanguagesOwnDivision) {
    std::mt19937_64 random(5);
    for (int k = 0; k < 300000; ++k) {
        const auto size = static_cast<std::int64_t>(of_any_length(random) >> 1);
        const std::int64_t dividend = (random() & 1U) != 0 ? size : -size;
        const auto divisor = static_cast<std::int32_t>((of_any_length(random) >> 33) | 1U);
        ASSERT_EQ(firmware::quotient(dividend, divisor), dividend / divisor)
            << dividend << "/" << divisor;
    }
    for (const std::int64_t edge : {std::int64_t{0xFFFFFFFF}, std::int64_t{0x100000000}}) {
        for (const std::int32_t divisor : {1, 2, std::numeric_limits<std::int32_t>::max()}) {
            EXPECT_EQ(firmware::quotient(edge, divisor), edge / divisor);
            EXPECT_EQ(firmware::quotient(-edge, divisor), -edge / divisor);
        }
    }
    EXPECT_EQ(firmware::quotient(std::numeric_limits<std::int64_t>::min(), 1),
              std::numeric_limits<std::int64_t>::min());
}

TEST(Quotient, OfAProductIsThatOf64Bits) {
    std::mt19937_64 random(9);
    for (int k = 0; k < 300000; ++k) {
        const auto value = static_cast<std::int32_t>(of_any_length(random));
        const auto by = static_cast<std::int32_t>(of_any_length(random) >> 32);
        const auto divisor = static_cast<std::int32_t>((of_any_length(random) >> 33) | 1U);
        ASSERT_EQ(firmware::quotient_of_product(value, by, divisor),
                  static_cast<std::int64_t>(value) * by / divisor)
            << value << "*" << by << "/" << divisor;
    }
}

TEST(Quotient, InMillionthsIsTheLanguagesOwnDivision) {
    std::mt19937_64 random(6);
    for (int k = 0; k < 300000; ++k) {
        const auto part = static_cast<std::int32_t>(of_any_length(random) >> 33);
        const auto whole = static_cast<std::int32_t>((of_any_length(random) >> 33) | 1U);
        ASSERT_EQ(firmware::millionths(part, whole),
                  static_cast<std::int64_t>(part) * 1000000 / whole)
            << part << "/" << whole;
    }
}

TEST(Quotient, InTenThousandthsIsTheLanguagesOwnDivision) {
    std::mt19937_64 random(9);
    const auto expect_alike = [](std::int32_t part, std::int32_t whole) {
        ASSERT_EQ(firmware::ten_thousandths(part, whole),
                  static_cast<std::int64_t>(part) * 10000 / whole)
            << part << "/" << whole;
    };
    for (int k = 0; k < 300000; ++k) {
        const auto part = static_cast<std::int32_t>(of_any_length(random) >> 33);
        const auto whole = static_cast<std::int32_t>((of_any_length(random) >> 33) | 1U);
        expect_alike(part, whole);
    }
    for (const std::int32_t part : {0, 429495, 429496, 429497, 42949671, 42949672, 42949673}) {
        for (const std::int32_t whole : {1, 99, 429497, 42949671, 42949672, 42949673, 2147483647}) {
            expect_alike(part, whole);
        }
    }
}

TEST(Quantities, AsFractionsAndPortionsAreThoseOf64Bits) {
    std::mt19937_64 random(7);
    for (int k = 0; k < 300000; ++k) {
        const auto part = static_cast<std::int32_t>(random() % 2000001) - 1000000;
        const auto whole = static_cast<std::int32_t>((of_any_length(random) >> 33) | 1U);
        const std::int64_t scaled = static_cast<std::int64_t>(part) * 1000;
        ASSERT_EQ(
            firmware::fraction(firmware::MilliAmperes{part}, firmware::MilliAmperes{whole}).count(),
            scaled / whole);
        const auto permille = static_cast<std::int32_t>(random() % 1001);
        ASSERT_EQ(
            firmware::portion(firmware::MilliVolts{part}, firmware::Permille{permille}).count(),
            static_cast<std::int64_t>(part) * permille / 1000);
    }
}

TEST(CycleRms, DividesBehindTheRootAsItWouldBeforeIt) {
    std::mt19937_64 random(8);
    for (int k = 0; k < 300; ++k) {
        firmware::CycleRms rms;
        std::int64_t sum = 0;
        std::uint64_t squares = 0;
        std::uint64_t samples = 0;
        const auto swing = static_cast<std::int32_t>(random() % 2048);
        const auto scale = static_cast<std::int32_t>(1 + random() % 1000);
        std::int32_t reading = 0;
        for (int half = 0; half < 2; ++half) {
            const int count = static_cast<int>(1 + random() % 1000);
            for (int i = 0; i < count; ++i) {
                const std::int32_t counts =
                    swing == 0 ? 5
                               : static_cast<std::int32_t>(random() %
                                                           static_cast<std::uint64_t>(2 * swing)) -
                                     swing;
                rms.add(counts);
                sum += counts;
                squares += static_cast<std::uint64_t>(counts * counts);
                ++samples;
            }
            reading = rms.close_half_cycle(scale);
        }
        const std::uint64_t spread = samples * squares - static_cast<std::uint64_t>(sum * sum);
        const auto scale_squared = static_cast<std::uint64_t>(scale * scale);
        EXPECT_EQ(static_cast<std::uint64_t>(reading),
                  long_hand_root(spread * scale_squared / (samples * samples)));
        EXPECT_EQ(rms.mean_counts(), sum / static_cast<std::int64_t>(samples));
    }
}

}  // namespace
