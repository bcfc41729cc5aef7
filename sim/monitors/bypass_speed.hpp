// Never a motor fed through the bypass below the lowest speed: the bypass must not be closed below
// it, and soon after the speed has fallen below it the motor must no longer be fed through it. A
// contact that closes or stays closed without its coil is not the controller's closing; then the
// motor must be off the line in the same time.
//
// Speeds are shares of the synchronous speed at the supply's frequency of that instant: slip is
// what a bypassed motor's current depends on, also on a generator whose frequency dips.
#pragma once

#include "sim/monitors/monitor.hpp"

namespace sim {

class BypassSpeed {
  public:
    static constexpr std::string_view name = "bypass_closed_below_speed";

    explicit BypassSpeed(const MonitorContext& context)
        : context_(context),
          synchronous_rad_per_s_per_Hz_(context.synchronous_speed_rad_per_s /
                                        context.nominal_frequency_Hz) {}

    void observe(const TickView& view, double /*line_voltage_rms_V*/) {
        const bool closed = context_.has_limiter && view.plant.bypass_closed &&
                            view.plant.line_connected && view.plant.main_conducting;
        const double synchronous_rad_per_s =
            synchronous_rad_per_s_per_Hz_ * view.plant.supply_frequency_Hz;
        const double lowest = context_.limits.bypass_minimum_speed_percent;
        const bool slow = 100.0 * view.plant.speed_rad_per_s < lowest * synchronous_rad_per_s;
        if (!closed || !slow) {
            slow_s_ = 0.0;
        } else {
            slow_s_ += 1e-9 * static_cast<double>(tick_length.count());
            const bool just_touched = !was_closed_ && view.commands.bypass_coil;
            if (!violation_ && (just_touched || slow_s_ > context_.limits.bypass_reaction_s)) {
                violation_ = Violation{view.plant.time_s,
                                       100.0 * view.plant.speed_rad_per_s / synchronous_rad_per_s,
                                       lowest, "% of synchronous speed"};
            }
        }
        was_closed_ = closed;
    }
    const std::optional<Violation>& violation() const { return violation_; }

  private:
    MonitorContext context_;
    double synchronous_rad_per_s_per_Hz_;
    double slow_s_ = 0.0;
    bool was_closed_ = false;
    std::optional<Violation> violation_;
};

}  // namespace sim
