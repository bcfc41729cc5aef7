// RMS over the last full cycle, refreshed every half cycle, free of converter offset.
//
// The window and its refresh follow IEC 61000-4-30 (memory). Samples are summed per half cycle; the
// value comes from the last two halves together:
//
//     rms^2 = (n * sum(x^2) - sum(x)^2) / n^2
//
// which takes the mean out, so an offset of the converter does not count. A half cycle holds a
// whole number of samples, so the window is up to half a tick off at either end: below 0.4 % of the
// value. One instance serves one channel; the caller closes half cycles at the line's voltage
// zeros.
#pragma once

#include <cstdint>

namespace firmware {

class CycleRms {
  public:
    /// Takes a sample of -2048 to 2047 counts. At most 1,000 samples per half cycle keep the sums
    /// in range; later ones are left out.
    void add(std::int32_t counts) {
        if (current_.samples < most_samples) {
            ++current_.samples;
            current_.sum += counts;
            current_.squares += static_cast<std::uint32_t>(counts * counts);
        }
    }

    /// Ends the half cycle under way. Returns the RMS over it and the one before, in counts times
    /// `scale_per_count` (up to 1,000), rounded down; 0 before two halves are there.
    std::int32_t close_half_cycle(std::int32_t scale_per_count);

    /// Mean over the window last closed, in counts: a sound converter's is near 0.
    std::int32_t mean_counts() const { return mean_counts_; }

  private:
    friend class Watch;

    static constexpr std::uint32_t most_samples = 1000;

    struct Sums {
        std::uint32_t samples = 0;
        std::int32_t sum = 0;
        std::uint32_t squares = 0;  // 2^22 each at most: 1,000 of them stay below 2^32
    };
    Sums current_;
    Sums previous_;
    std::int32_t mean_counts_ = 0;
};

}  // namespace firmware
