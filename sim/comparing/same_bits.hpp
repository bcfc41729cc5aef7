// Two numbers are the same if their bits are: -0 is not 0, and a NaN is itself.
#pragma once

#include <cstdint>
#include <cstring>

namespace sim {

inline bool same_bits(double a, double b) {
    std::uint64_t bits_a = 0;
    std::uint64_t bits_b = 0;
    std::memcpy(&bits_a, &a, sizeof a);
    std::memcpy(&bits_b, &b, sizeof b);
    return bits_a == bits_b;
}

}  // namespace sim
