#include "firmware/arithmetic/sine.hpp"

#include <array>
#include <cstddef>

namespace firmware {

namespace {

constexpr std::size_t quarter_steps = 256;
constexpr int fraction_bits = 30;
constexpr std::int64_t one = std::int64_t{1} << fraction_bits;
constexpr std::int64_t half_pi = 1686629713;  // pi/2 * 2^30

// Up to x^15: the first term left out is below 2^-30 at a quarter turn.
constexpr std::int64_t taylor_sine(std::int64_t x) {
    const std::int64_t x_squared = (x * x) >> fraction_bits;
    std::int64_t term = x;
    std::int64_t sum = x;
    for (std::int64_t n = 2; n <= 14; n += 2) {
        term = -((term * x_squared) >> fraction_bits) / (n * (n + 1));
        sum += term;
    }
    return sum;
}

using QuarterWave = std::array<std::int16_t, quarter_steps + 2>;

// One value beyond the crest lets the interpolation run at the crest without a special case.
constexpr QuarterWave make_quarter_wave() {
    QuarterWave wave{};
    for (std::size_t i = 0; i < wave.size(); ++i) {
        const std::int64_t x =
            half_pi * static_cast<std::int64_t>(i) / static_cast<std::int64_t>(quarter_steps);
        const std::int64_t scaled = (taylor_sine(x) * sine_one + one / 2) >> fraction_bits;
        wave[i] = static_cast<std::int16_t>(scaled > sine_one ? sine_one : scaled);
    }
    return wave;
}

constexpr QuarterWave quarter_wave = make_quarter_wave();

}  // namespace

std::int32_t sine(Phase phase) {
    // Fold onto the first quarter: mirror at the crest, change sign in the second half.
    std::uint32_t angle = phase.since_zero().count();
    if (angle > 0x40000000U) {
        angle = 0x80000000U - angle;
    }
    constexpr unsigned step_bits = 22;  // 2^30 counts in a quarter over 2^8 steps
    const std::size_t index = angle >> step_bits;
    const auto rest = static_cast<std::int32_t>((angle >> (step_bits - 12)) & 0xFFFU);
    const std::int32_t low = quarter_wave[index];
    const std::int32_t rise = quarter_wave[index + 1] - low;
    const std::int32_t value = low + ((rise * rest + 0x800) >> 12);
    return phase.second_half() ? -value : value;
}

}  // namespace firmware
