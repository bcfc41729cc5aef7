// Never a standing rotor fed longer than the limit.
//
// Standing: below 5 % of synchronous speed, either way. Fed: current may flow in the main winding;
// the gaps of phase control (up to 20 ms) count as fed. The time adds up over separate feeds until
// the rotor turns or has rested for the minimum rest, because the heat does.
#pragma once

#include <cmath>

#include "sim/monitors/monitor.hpp"

namespace sim {

class StandingRotor {
  public:
    static constexpr std::string_view name = "standing_rotor_fed_too_long";

    explicit StandingRotor(const MonitorContext& context)
        : longest_s_(context.limits.standing_rotor_max_s),
          rest_s_(context.limits.minimum_rest_s),
          standing_rad_per_s_(standing_share * context.synchronous_speed_rad_per_s) {}

    void observe(const TickView& view, double /*line_voltage_rms_V*/) {
        const double now_s = view.plant.time_s;
        const bool feeds = view.plant.main_conducting && view.plant.line_connected;
        if (feeds) {
            last_fed_s_ = now_s;
        }
        if (std::abs(view.plant.speed_rad_per_s) > standing_rad_per_s_ ||
            now_s - last_fed_s_ > rest_s_) {
            standing_s_ = 0.0;
        } else if (now_s - last_fed_s_ < gap_s) {
            standing_s_ += 1e-9 * static_cast<double>(tick_length.count());
        }
        if (!violation_ && standing_s_ > longest_s_) {
            violation_ = Violation{now_s, standing_s_, longest_s_, "s"};
        }
    }
    const std::optional<Violation>& violation() const { return violation_; }
    /// So that the next one is told, too; the time that broke it counts no more.
    void forget_violation() {
        if (violation_) {
            standing_s_ = 0.0;
        }
        violation_.reset();
    }

  private:
    static constexpr double standing_share = 0.05;
    static constexpr double gap_s = 0.020;

    double longest_s_;
    double rest_s_;
    double standing_rad_per_s_;
    double last_fed_s_ = -1e9;
    double standing_s_ = 0.0;
    std::optional<Violation> violation_;
};

}  // namespace sim
