// Counts ticks since something happened. Saturates instead of wrapping, so "long ago" stays so.
#pragma once

#include <cstdint>

#include "firmware/units/units.hpp"

namespace firmware {

class Stopwatch {
  public:
    constexpr void restart() { elapsed_ = 0; }

    /// As if the event lay further back than any limit.
    constexpr void expire() { elapsed_ = longest; }

    /// One tick passes.
    constexpr void tick() { elapsed_ += (elapsed_ != longest) ? 1U : 0U; }

    /// Many ticks pass at once.
    constexpr void pass(Ticks ticks) {
        elapsed_ = ticks.count() < longest - elapsed_ ? elapsed_ + ticks.count() : longest;
    }

    constexpr Ticks elapsed() const { return Ticks{elapsed_}; }
    constexpr bool reached(Ticks limit) const { return elapsed_ >= limit.count(); }

  private:
    static constexpr std::uint32_t longest = 0xFFFFFFFFU;
    std::uint32_t elapsed_ = 0;
};

}  // namespace firmware
