// Integer square root: the largest r with r*r <= n.
//
// Half of the root's bits come from a root of half the length, the other half from one division by
// it, and at most one step back makes it exact (Zimmermann, "Karatsuba Square Root", 1999):
//
//     n = h*2^2k + m*2^k + l    with its top two bits not both 0
//     h = s*s + r               m' = r*2^k + m = q*2s + u
//     root = s*2^k + q          one less if u*2^k + l < q*q
//
// No division but of 32 bits and no loop: the same bits on every processor, in a fraction of what
// the long-hand method takes for 64 bits.
#pragma once

#include <cstdint>

namespace firmware {

namespace square_root_detail {

constexpr int first_in_table = 64;

/// Roots of n * 256, rounded down, for n from 64 to 255.
struct Roots {
    std::uint8_t of[256 - first_in_table];
};
constexpr Roots make_roots() {
    Roots made{};
    std::uint32_t root = 128;
    for (std::uint32_t n = first_in_table; n < 256; ++n) {
        // Grows by one at the most.
        if ((root + 1) * (root + 1) <= n * 256) {
            ++root;
        }
        made.of[n - first_in_table] = static_cast<std::uint8_t>(root);
    }
    return made;
}
inline constexpr Roots roots = make_roots();

/// Of 16 bits, one of the top two of which is set. The root grows by less than one in 256.
constexpr std::uint32_t of_16_normal_bits(std::uint32_t n) {
    const std::uint32_t root = roots.of[(n >> 8) - first_in_table];
    return (root + 1) * (root + 1) <= n ? root + 1 : root;
}

/// The largest even shift that keeps every bit of a number that is not 0. An even shift halves
/// exactly in the root. Both compilers that build this know how the processor counts zeros.
constexpr unsigned even_shift(std::uint32_t n) {
    static_assert(sizeof(unsigned) == sizeof n, "the compiler counts the zeros of 32 bits");
    return static_cast<unsigned>(__builtin_clz(n)) & ~1U;
}

/// Of a number of which one of the top two bits is set.
constexpr std::uint32_t of_32_normal_bits(std::uint32_t n) {
    const std::uint32_t s = of_16_normal_bits(n >> 16);
    const std::uint32_t r = (n >> 16) - s * s;
    const std::uint32_t to_divide = (r << 8) | ((n >> 8) & 0xFFU);
    const std::uint32_t q = to_divide / (2 * s);
    const std::uint32_t u = to_divide - q * 2 * s;
    const std::uint32_t root = (s << 8) + q;
    return ((u << 8) | (n & 0xFFU)) < q * q ? root - 1 : root;
}

}  // namespace square_root_detail

constexpr std::uint32_t square_root(std::uint32_t n) {
    if (n == 0) {
        return 0;
    }
    const unsigned shift = square_root_detail::even_shift(n);
    return square_root_detail::of_32_normal_bits(n << shift) >> (shift / 2);
}

constexpr std::uint32_t square_root(std::uint64_t n) {
    if ((n >> 32) == 0) {
        return square_root(static_cast<std::uint32_t>(n));
    }
    const unsigned shift = square_root_detail::even_shift(static_cast<std::uint32_t>(n >> 32));
    n <<= shift;
    const auto high = static_cast<std::uint32_t>(n >> 32);
    const auto low = static_cast<std::uint32_t>(n);
    const std::uint32_t s = square_root_detail::of_32_normal_bits(high);
    const std::uint32_t r = high - s * s;
    // Half of what is divided, by s instead of 2s: it fits 32 bits, for r <= 2s < 2^17.
    const std::uint32_t half = (r << 15) | (low >> 17);
    const std::uint32_t q = half / s;
    const std::uint32_t u = ((half - q * s) << 1) | ((low >> 16) & 1U);
    const std::uint64_t left = (static_cast<std::uint64_t>(u) << 16) | (low & 0xFFFFU);
    // q may just reach 2^16, where its square leaves 32 bits.
    const std::uint64_t square =
        q >> 16 != 0 ? std::uint64_t{1} << 32 : static_cast<std::uint64_t>(q * q);
    const std::uint64_t root = (static_cast<std::uint64_t>(s) << 16) + q - (left < square ? 1 : 0);
    return static_cast<std::uint32_t>(root >> (shift / 2));
}

}  // namespace firmware
