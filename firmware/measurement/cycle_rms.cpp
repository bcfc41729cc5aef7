#include "firmware/measurement/cycle_rms.hpp"

#include "firmware/arithmetic/square_root.hpp"

namespace firmware {

std::int32_t CycleRms::close_half_cycle(std::int32_t scale_per_count) {
    const std::uint64_t samples = current_.samples + previous_.samples;
    const bool complete = current_.samples != 0 && previous_.samples != 0;
    const std::int64_t sum = static_cast<std::int64_t>(current_.sum) + previous_.sum;
    const std::uint64_t squares = static_cast<std::uint64_t>(current_.squares) + previous_.squares;
    previous_ = current_;
    current_ = Sums{};
    mean_counts_ = 0;
    if (!complete) {
        return 0;
    }
    mean_counts_ = static_cast<std::int32_t>(sum / static_cast<std::int64_t>(samples));
    // n * sum(x^2) is below 2^44 and never smaller than sum(x)^2 (Cauchy); the scale squared adds
    // 20 bits, which still fits.
    const std::uint64_t spread = samples * squares - static_cast<std::uint64_t>(sum * sum);
    const auto scale = static_cast<std::uint64_t>(scale_per_count);
    return static_cast<std::int32_t>(square_root(spread * (scale * scale) / (samples * samples)));
}

}  // namespace firmware
