#include "firmware/measurement/half_waves.hpp"

#include "firmware/arithmetic/quotient.hpp"

namespace firmware {

namespace {

constexpr std::int32_t most_samples = 1000;

// The voltage's rate of change is positive in the first and the last quarter of a turn.
constexpr bool voltage_rises(Phase phase) {
    return (((phase.count() >> 30) + 1U) & 2U) == 0;
}

// 2,000 samples of 2,048 counts times a scale of up to 1,000 may need 64 bits on the way.
MilliAmperes mean(std::int32_t sum, std::int32_t scale, std::int32_t samples) {
    const std::int64_t size = product_over(sum < 0 ? -sum : sum, scale, samples);
    return MilliAmperes{static_cast<std::int32_t>(sum < 0 ? -size : size)};
}

}  // namespace

void HalfWaves::add(std::int32_t counts, Phase phase) {
    if (current_.samples >= most_samples) {
        return;
    }
    ++current_.samples;
    if (counts > 0) {
        current_.positive += counts;
    } else {
        current_.negative -= counts;
    }
    current_.leading += voltage_rises(phase) ? counts : -counts;
}

HalfWaveMeans HalfWaves::close_half_cycle(std::int32_t scale_per_count) {
    HalfWaveMeans means;
    if (current_.samples != 0 && previous_.samples != 0) {
        const std::int32_t samples = current_.samples + previous_.samples;
        means.positive = mean(current_.positive + previous_.positive, scale_per_count, samples);
        means.negative = mean(current_.negative + previous_.negative, scale_per_count, samples);
        means.leading = mean(current_.leading + previous_.leading, scale_per_count, samples);
    }
    previous_ = current_;
    current_ = Sums{};
    return means;
}

}  // namespace firmware
