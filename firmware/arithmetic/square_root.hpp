// Integer square root: the largest r with r*r <= n.
//
// Digit by digit in base 2 (the long-hand method), no division: the same bits on every processor,
// and at most 32 turns of a short loop.
#pragma once

#include <cstdint>

namespace firmware {

namespace square_root_detail {

template <class Unsigned>
constexpr Unsigned digit_by_digit(Unsigned n) {
    Unsigned root = 0;
    Unsigned bit = static_cast<Unsigned>(Unsigned{1} << (sizeof(Unsigned) * 8 - 2));
    for (; bit != 0 && bit > n; bit >>= 2) {
    }
    for (; bit != 0; bit >>= 2) {
        if (n >= root + bit) {
            n -= root + bit;
            root = (root >> 1) + bit;
        } else {
            root >>= 1;
        }
    }
    return root;
}

}  // namespace square_root_detail

constexpr std::uint32_t square_root(std::uint32_t n) {
    return square_root_detail::digit_by_digit(n);
}

constexpr std::uint32_t square_root(std::uint64_t n) {
    return static_cast<std::uint32_t>(square_root_detail::digit_by_digit(n));
}

}  // namespace firmware
