// A condition that counts only once it has lasted: a patience against short events.
#pragma once

#include "firmware/units/stopwatch.hpp"

namespace firmware {

class Lasting {
  public:
    explicit constexpr Lasting(Ticks patience) : patience_(patience) {}

    constexpr void restart() { clock_.restart(); }

    /// One tick passes with the condition as given. True from the moment it has held for the
    /// patience without a break.
    constexpr bool tick(bool condition) {
        if (!condition) {
            clock_.restart();
            return false;
        }
        clock_.tick();
        return clock_.reached(patience_);
    }

  private:
    friend class Watch;

    Ticks patience_;
    Stopwatch clock_;
};

}  // namespace firmware
