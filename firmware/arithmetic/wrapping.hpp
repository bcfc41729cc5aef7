// Sums and differences that are meant to run round the end of 32 bits.
//
// A phase and a sequence number go round; nothing else may. Written out like this the two kinds can
// be told apart, by a reader and by scripts/check_overflow, which stops at every other sum that
// leaves its type. They cost what a bare sum costs: the compiler drops the upper half.
#pragma once

#include <cstdint>

namespace firmware {

/// a + b modulo 2^32.
constexpr std::uint32_t wrapping_sum(std::uint32_t a, std::uint32_t b) {
    return static_cast<std::uint32_t>((std::uint64_t{a} + b) & 0xFFFFFFFFU);
}

/// a - b modulo 2^32.
constexpr std::uint32_t wrapping_difference(std::uint32_t a, std::uint32_t b) {
    constexpr std::uint64_t round = std::uint64_t{1} << 32;
    return static_cast<std::uint32_t>((round + a - b) & 0xFFFFFFFFU);
}

}  // namespace firmware
