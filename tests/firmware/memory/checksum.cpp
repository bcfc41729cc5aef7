#include "firmware/memory/checksum.hpp"

#include <gtest/gtest.h>

#include <cstdint>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace firmware;

std::uint32_t checksum_of(const std::string& text) {
    Checksum checksum;
    for (const char character : text) {
        checksum.add_byte(static_cast<std::uint8_t>(character));
    }
    return checksum.value();
}

// The definition, as a division of polynomials with the highest power first: the message's bits
// come least significant first, the first 32 are inverted, 32 zeros follow, and the remainder is
// read from its lowest power up and inverted.
std::uint32_t by_long_division(const std::string& text) {
    std::vector<int> bits;
    for (const char character : text) {
        for (int bit = 0; bit < 8; ++bit) {
            bits.push_back((static_cast<unsigned char>(character) >> bit) & 1);
        }
    }
    bits.insert(bits.end(), 32, 0);
    for (std::size_t i = 0; i < 32; ++i) {
        bits[i] ^= 1;
    }
    const std::vector<std::size_t> powers = {32, 26, 23, 22, 16, 12, 11, 10, 8, 7, 5, 4, 2, 1, 0};
    for (std::size_t i = 0; i + 32 < bits.size(); ++i) {
        if (bits[i] == 1) {
            for (const std::size_t power : powers) {
                bits[i + 32 - power] ^= 1;
            }
        }
    }
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < 32; ++i) {
        value |= static_cast<std::uint32_t>(bits[bits.size() - 32 + i] ^ 1) << i;
    }
    return value;
}

TEST(Checksum, OfTheNineDigitsIsThePublishedCheckValue) {
    EXPECT_EQ(checksum_of("123456789"), 0xCBF43926U);
}

TEST(Checksum, OfNothingIsZero) {
    EXPECT_EQ(checksum_of(""), 0U);
}

TEST(Checksum, IsTheRemainderOfALongDivision) {
    EXPECT_EQ(by_long_division("123456789"), 0xCBF43926U);
    std::mt19937 random(1);
    for (int i = 0; i < 300; ++i) {
        std::string text(4 + random() % 40, ' ');
        for (char& character : text) {
            character = static_cast<char>(random() & 0xFFU);
        }
        ASSERT_EQ(checksum_of(text), by_long_division(text)) << i;
    }
}

TEST(Checksum, TakesTheLeastSignificantByteOfAWordFirst) {
    Checksum checksum;
    checksum.add_word(0x34333231U);
    checksum.add_word(0x38373635U);
    checksum.add_byte('9');
    EXPECT_EQ(checksum.value(), 0xCBF43926U);
}

}  // namespace
