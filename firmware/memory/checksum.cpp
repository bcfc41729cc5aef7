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

void Checksum::add_byte(std::uint8_t byte) {
    remainder_ ^= byte;
    remainder_ = (remainder_ >> 4) ^ remainders[remainder_ & 0xFU];
    remainder_ = (remainder_ >> 4) ^ remainders[remainder_ & 0xFU];
}

void Checksum::add_word(std::uint32_t word) {
    for (unsigned shift = 0; shift < 32; shift += 8) {
        add_byte(static_cast<std::uint8_t>(word >> shift));
    }
}

}  // namespace firmware
