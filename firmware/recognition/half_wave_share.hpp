// Whether the two half waves of a current, and with them the two thyristors, carry the same.
#pragma once

#include "firmware/measurement/half_waves.hpp"

namespace firmware {

constexpr MilliAmperes half_wave_difference(const HalfWaveMeans& means) {
    const MilliAmperes difference = means.positive - means.negative;
    return difference.count() < 0 ? MilliAmperes{-difference.count()} : difference;
}

/// The difference is more than the given share of both together.
constexpr bool half_waves_differ(const HalfWaveMeans& means, Permille by_more_than) {
    return half_wave_difference(means) > portion(means.positive + means.negative, by_more_than);
}

}  // namespace firmware
