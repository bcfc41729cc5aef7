#include "sim/recorder/comtrade_scale.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <random>
#include <string>

namespace {

using sim::ComtradeScale;

TEST(ComtradeScale, LosesNothingWhereTheNumbersReach) {
    const ComtradeScale scale(-32767, 32767, 3, 32767);
    EXPECT_EQ(scale.a(), "0.001");
    EXPECT_EQ(scale.b(), "0.000");
    EXPECT_EQ(scale.error(), 0.0);
    for (const std::int64_t reading : {-32767, -1, 0, 1, 32767}) {
        EXPECT_EQ(scale.number_of(reading), reading);
    }
}

TEST(ComtradeScale, WritesItsFactorsExactly) {
    const ComtradeScale narrow(400000, 410000, 3, 32767);
    EXPECT_EQ(narrow.a(), "0.001") << "a narrow range far from 0 loses nothing either";
    EXPECT_EQ(narrow.b(), "405.000");
    const ComtradeScale wide(-327672, 327669, 4, 32767);
    EXPECT_EQ(wide.a(), "0.0011");
    EXPECT_EQ(wide.b(), "-0.0002");
    const ComtradeScale whole(0, 100000, 0, 32767);
    EXPECT_EQ(whole.a(), "2");
    EXPECT_EQ(whole.b(), "50000");
}

TEST(ComtradeScale, OfAConstantFarFromZeroIsThatConstant) {
    const ComtradeScale scale(1234567, 1234567, 2, 32767);
    EXPECT_EQ(scale.a(), "0.01");
    EXPECT_EQ(scale.b(), "12345.67");
    EXPECT_EQ(scale.number_of(1234567), 0);
}

TEST(ComtradeScale, IsOffByAtMostHalfOfAAndNeverLeavesItsNumbers) {
    std::mt19937_64 random(7);
    for (int trial = 0; trial < 2000; ++trial) {
        const int digits = static_cast<int>(random() % 5U);
        const std::int64_t most = (trial % 2) == 0 ? 32767 : 99998;
        const auto size = static_cast<std::int64_t>(random() >> (20U + random() % 40U));
        const std::int64_t lowest =
            static_cast<std::int64_t>(random() % 2000001U) - 1000000 - size / 2;
        const std::int64_t highest = lowest + size;
        const ComtradeScale scale(lowest, highest, digits, most);
        const double unit = std::pow(10.0, -digits);
        const double a = std::stod(scale.a());
        const double b = std::stod(scale.b());
        ASSERT_GE(a, 0.999 * unit);
        for (int k = 0; k < 50; ++k) {
            const std::int64_t reading =
                k == 0   ? lowest
                : k == 1 ? highest
                         : lowest + static_cast<std::int64_t>(random() %
                                                              static_cast<std::uint64_t>(size + 1));
            const std::int64_t number = scale.number_of(reading);
            ASSERT_LE(std::abs(number), most);
            const double back = a * static_cast<double>(number) + b;
            const double error = std::abs(back - unit * static_cast<double>(reading));
            const double rounding = 1e-12 * (std::abs(back) + unit);
            ASSERT_LE(error, scale.error() * unit + rounding) << lowest << " " << highest;
            ASSERT_LE(scale.error() * unit, 0.5 * a * (1.0 + 1e-12));
        }
    }
}

}  // namespace
