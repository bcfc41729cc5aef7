// Arithmetic that cannot overflow, to hold the controller's against; and values to hold it at.
#pragma once

#include <cstdint>
#include <random>
#include <vector>

namespace ranges_test {

/// Wider than any product in the controller.
__extension__ using Wide = __int128;

/// Rounds towards minus infinity, as a right shift does.
constexpr Wide floor_divided(Wide value, Wide by) {
    const Wide quotient = value / by;
    return quotient * by > value ? quotient - 1 : quotient;
}

/// Both ends of a range, their neighbours, what lies around zero and around every power of two
/// inside, and random values of every size.
inline std::vector<std::int64_t> values_of(std::int64_t lowest, std::int64_t highest,
                                           int random_values = 200) {
    std::vector<std::int64_t> values;
    const auto add = [&](Wide value) {
        if (value >= lowest && value <= highest) {
            values.push_back(static_cast<std::int64_t>(value));
        }
    };
    for (int off = -1; off <= 1; ++off) {
        add(Wide{lowest} + off);
        add(Wide{highest} + off);
        add(off);
        for (int bit = 1; bit < 62; ++bit) {
            add((Wide{1} << bit) + off);
            add(-(Wide{1} << bit) + off);
        }
    }
    std::mt19937_64 random(11);
    for (int i = 0; i < random_values; ++i) {
        // Half of them small in size, so that quotients and differences are met in all sizes.
        const Wide span = Wide{highest} - lowest + 1;
        add(lowest + static_cast<Wide>(random()) % span);
        add((i % 2 == 0 ? 1 : -1) * static_cast<Wide>(random() >> (random() % 64)));
    }
    return values;
}

}  // namespace ranges_test
