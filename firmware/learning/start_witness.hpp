// Watches one start at the output's current sensor and writes its report.
//
// RMS over about 100 ms: the mean of the squares of ten one-cycle readings, one every half cycle
// (100 ms at 50 Hz, 83 ms at 60 Hz).
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

#include "firmware/arithmetic/extremes.hpp"
#include "firmware/arithmetic/square_root.hpp"
#include "firmware/learning/start_report.hpp"

namespace firmware {

class StartWitness {
  public:
    void begin() { *this = StartWitness{}; }

    /// The one-cycle RMS of one more half cycle, and its peak.
    void observe(MilliAmperes current, MilliAmperes peak) {
        peak_ = larger(peak_, peak);
        const auto reading = static_cast<std::uint64_t>(larger(current.count(), std::int32_t{0}));
        const std::uint64_t square = reading * reading;
        sum_ = sum_ - squares_[next_] + square;
        squares_[next_] = square;
        next_ = (next_ + 1) % window;
        largest_sum_ = larger(largest_sum_, sum_);
    }

    MilliAmperes inrush() const {
        return MilliAmperes{static_cast<std::int32_t>(square_root(largest_sum_ / window))};
    }

    MilliAmperes peak() const { return peak_; }

  private:
    friend class Watch;

    static constexpr std::size_t window = 10;

    std::array<std::uint64_t, window> squares_{};
    std::size_t next_ = 0;
    std::uint64_t sum_ = 0;
    std::uint64_t largest_sum_ = 0;
    MilliAmperes peak_;
};

}  // namespace firmware
