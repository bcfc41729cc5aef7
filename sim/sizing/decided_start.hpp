// Watches a start for as long as its end is open, and no longer.
//
// It is decided when the supply or the unit's own protection has opened; when the controller has
// let go; when the rotor has been up, fed and past the ramp for a tenth of a second, a clamp's
// window; when it has gained no speed for a second (what comes later, warmer windings and a sagging
// supply, makes it no easier); at the latest after 3 s, by which time a protector is close to
// opening (engineering judgement, both).
#pragma once

#include "sim/bench/start_bench.hpp"

namespace sim {

inline constexpr double longest_watched_start_s = 3.0;

class DecidedStart final : public TickObserver {
  public:
    explicit DecidedStart(double synchronous_speed_rad_per_s)
        : synchronous_rad_per_s_(synchronous_speed_rad_per_s) {}

    void observe(const TickView& view) override;
    bool wants_more() const override { return !decided_; }

  private:
    double synchronous_rad_per_s_;
    double up_since_s_ = 0.0;
    double highest_speed_share_ = 0.0;
    double last_gain_s_ = 0.0;
    bool was_up_ = false;
    bool was_fed_ = false;
    bool decided_ = false;
};

}  // namespace sim
