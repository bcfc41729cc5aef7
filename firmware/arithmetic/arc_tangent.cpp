#include "firmware/arithmetic/arc_tangent.hpp"

#include <array>
#include <cstddef>

#include "firmware/arithmetic/wrapping.hpp"

namespace firmware {

namespace {

// arctan(2^-i) as a phase: 2^32 is one turn.
constexpr std::array<std::uint32_t, 16> angle_of_shift = {
    536870912U, 316933406U, 167458907U, 85004756U, 42667331U, 21354465U, 10679838U, 5340245U,
    2670163U,   1335087U,   667544U,    333772U,   166886U,   83443U,    41722U,    20861U};

}  // namespace

Phase phase_of_vector(std::int32_t cosine_part, std::int32_t sine_part) {
    if (cosine_part == 0 && sine_part == 0) {
        return Phase{0};
    }
    std::int32_t x = cosine_part;
    std::int32_t y = sine_part;
    std::uint32_t turned = 0;
    if (x < 0) {
        // Half a turn brings any vector into the half plane in which the iteration converges.
        x = -x;
        y = -y;
        turned = 0x80000000U;
    }
    for (std::size_t i = 0; i < angle_of_shift.size(); ++i) {
        const std::int32_t x_shifted = x >> i;
        const std::int32_t y_shifted = y >> i;
        if (y > 0) {
            x += y_shifted;
            y -= x_shifted;
            turned = wrapping_sum(turned, angle_of_shift[i]);
        } else {
            x -= y_shifted;
            y += x_shifted;
            turned = wrapping_difference(turned, angle_of_shift[i]);
        }
    }
    return Phase{turned};
}

}  // namespace firmware
