#include "firmware/measurement/cycle_rms.hpp"

#include "firmware/arithmetic/square_root.hpp"

namespace firmware {

std::int32_t CycleRms::close_half_cycle(std::int32_t scale_per_count) {
    const std::uint32_t samples = current_.samples + previous_.samples;
    const bool complete = current_.samples != 0 && previous_.samples != 0;
    const std::int32_t sum = current_.sum + previous_.sum;  // below 2^23
    const std::uint64_t squares = static_cast<std::uint64_t>(current_.squares) + previous_.squares;
    previous_ = current_;
    current_ = Sums{};
    mean_counts_ = 0;
    if (!complete) {
        return 0;
    }
    mean_counts_ = sum / static_cast<std::int32_t>(samples);
    // n * sum(x^2) is below 2^44 and never smaller than sum(x)^2 (Cauchy); the scale squared adds
    // 20 bits, which still fits.
    const std::uint64_t square_of_sum =
        static_cast<std::uint64_t>(static_cast<std::int64_t>(sum) * sum);
    const std::uint64_t spread = samples * squares - square_of_sum;
    const auto scale = static_cast<std::uint32_t>(scale_per_count);
    const std::uint32_t square_of_scale = scale * scale;  // up to 2^20
    // r*r <= x/(n*n) exactly if (r*n)*(r*n) <= x: so the division can follow the root, where it is
    // one of 32 bits.
    return static_cast<std::int32_t>(square_root(spread * square_of_scale) / samples);
}

}  // namespace firmware
