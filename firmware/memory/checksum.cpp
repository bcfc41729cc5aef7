#include "firmware/memory/checksum.hpp"

#include <array>
#include <cstddef>

namespace firmware {

namespace {

constexpr std::uint32_t polynomial = 0xEDB88320U;

using FourBitRemainders = std::array<std::uint32_t, 16>;

constexpr FourBitRemainders make_remainders() {
    FourBitRemainders made{};
    for (std::uint32_t value = 0; value < made.size(); ++value) {
        std::uint32_t remainder = value;
        for (int bit = 0; bit < 4; ++bit) {
            remainder = (remainder >> 1) ^ ((remainder & 1U) != 0 ? polynomial : 0U);
        }
        made[value] = remainder;
    }
    return made;
}

constexpr FourBitRemainders remainders = make_remainders();

}  // namespace

namespace {

constexpr std::uint32_t without_four_bits(std::uint32_t remainder) {
    return (remainder >> 4) ^ remainders[remainder & 0xFU];
}

constexpr std::uint32_t without_byte(std::uint32_t remainder) {
    return without_four_bits(without_four_bits(remainder));
}

}  // namespace

void Checksum::add_byte(std::uint8_t byte) {
    remainder_ = without_byte(remainder_ ^ byte);
}

// Byte by byte, the lowest first, comes to the same: what is still to come only meets the remainder
// when its turn is there. Written out, for it is done within one tick.
void Checksum::add_word(std::uint32_t word) {
    const std::uint32_t both = remainder_ ^ word;
    remainder_ = without_byte(without_byte(without_byte(without_byte(both))));
}

}  // namespace firmware
