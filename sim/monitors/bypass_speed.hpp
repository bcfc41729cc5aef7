// Never a bypass closed below the lowest speed: it must not touch below it, and it must open soon
// after the speed has fallen below it while the supply still feeds it.
#pragma once

#include "sim/monitors/monitor.hpp"

namespace sim {

class BypassSpeed {
  public:
    static constexpr std::string_view name = "bypass_closed_below_speed";

    explicit BypassSpeed(const MonitorContext& context)
        : context_(context),
          lowest_rad_per_s_(0.01 * context.limits.bypass_minimum_speed_percent *
                            context.synchronous_speed_rad_per_s) {}

    void observe(const TickView& view, double /*line_voltage_rms_V*/) {
        const bool closed = context_.has_limiter && view.plant.bypass_closed;
        const bool slow = view.plant.speed_rad_per_s < lowest_rad_per_s_;
        if (!closed || !slow) {
            slow_s_ = 0.0;
        } else {
            slow_s_ += 1e-9 * static_cast<double>(tick_length.count());
            const bool just_touched = !was_closed_;
            if (!violation_ && (just_touched || slow_s_ > context_.limits.bypass_reaction_s)) {
                violation_ = Violation{
                    view.plant.time_s,
                    100.0 * view.plant.speed_rad_per_s / context_.synchronous_speed_rad_per_s,
                    context_.limits.bypass_minimum_speed_percent, "% of synchronous speed"};
            }
        }
        was_closed_ = closed;
    }
    const std::optional<Violation>& violation() const { return violation_; }

  private:
    MonitorContext context_;
    double lowest_rad_per_s_;
    double slow_s_ = 0.0;
    bool was_closed_ = false;
    std::optional<Violation> violation_;
};

}  // namespace sim
