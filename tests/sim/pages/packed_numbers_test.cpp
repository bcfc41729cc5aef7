// Numbers in few letters, read back by a reader of the test's own.
#include "sim/pages/packed_numbers.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <random>
#include <string>
#include <vector>

namespace {

/// Straight from the definition in the header, in another way than it is written.
std::vector<double> unpack(const std::string& text, int decimals) {
    const std::string letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::vector<bool> bits;
    for (const char letter : text) {
        const std::size_t six = letters.find(letter);
        for (int k = 5; six != std::string::npos && k >= 0; --k) {
            bits.push_back(((six >> static_cast<unsigned>(k)) & 1U) == 1U);
        }
    }
    std::vector<double> values;
    std::int64_t now = 0;
    std::int64_t zigzag = 0;
    int place = 0;
    for (std::size_t begin = 0; begin + 8 <= bits.size(); begin += 8) {
        for (std::size_t k = 7; k >= 1; --k) {
            zigzag += bits[begin + k] ? std::int64_t{1} << place : 0;
            ++place;
        }
        if (!bits[begin]) {
            now += zigzag % 2 == 0 ? zigzag / 2 : -(zigzag + 1) / 2;
            values.push_back(static_cast<double>(now) / std::pow(10.0, decimals));
            zigzag = 0;
            place = 0;
        }
    }
    return values;
}

TEST(Base64, IsThatOfItsStandard) {
    // RFC 4648, section 10 (published).
    EXPECT_EQ(sim::base64(""), "");
    EXPECT_EQ(sim::base64("f"), "Zg==");
    EXPECT_EQ(sim::base64("fo"), "Zm8=");
    EXPECT_EQ(sim::base64("foo"), "Zm9v");
    EXPECT_EQ(sim::base64("foob"), "Zm9vYg==");
    EXPECT_EQ(sim::base64("fooba"), "Zm9vYmE=");
    EXPECT_EQ(sim::base64("foobar"), "Zm9vYmFy");
    EXPECT_EQ(sim::base64(std::string("\xff\xfe\x00", 3)), "//4A");
}

TEST(PackedNumbers, ComeBackRoundedToTheirDecimals) {
    std::mt19937 random(7);
    for (int decimals = 0; decimals <= 4; ++decimals) {
        const double half = 0.5 * std::pow(10.0, -decimals);
        for (const double spread : {0.1, 30.0, 1e6}) {
            std::normal_distribution<double> draw(0.0, spread);
            std::vector<double> values(500);
            for (double& value : values) {
                value = draw(random);
            }
            const auto back = unpack(sim::pack_numbers(values, decimals), decimals);
            ASSERT_EQ(back.size(), values.size());
            for (std::size_t k = 0; k < values.size(); ++k) {
                ASSERT_NEAR(back[k], values[k], half * (1.0 + 1e-6) + 1e-9 * spread);
            }
        }
    }
}

TEST(PackedNumbers, HoldTheEdgesOfTheirSteps) {
    const std::vector<double> values = {0, -1, 63, -64, 64, -65, 8191, -8192, 9e15, -9e15, 0};
    EXPECT_EQ(unpack(sim::pack_numbers(values, 0), 0), values);
}

TEST(PackedNumbers, TakeOneByteForEachSmallStep) {
    const std::vector<double> ramp = {0, 1, 2, 3, 2, 1, 0, -1, -2};
    EXPECT_EQ(sim::pack_numbers(ramp, 0).size(), 12U);
}

TEST(PackedNumbers, OfNothingAreNothing) {
    EXPECT_EQ(sim::pack_numbers({}, 3), "");
}

}  // namespace
