// Never the start capacitor in longer than its rating. In means on the line: a contact that is
// stuck in behind an open contactor feeds nothing. While the line is away the time stands still.
#pragma once

#include "sim/monitors/monitor.hpp"

namespace sim {

class StartCapacitorTime {
  public:
    static constexpr std::string_view name = "start_capacitor_in_too_long";

    explicit StartCapacitorTime(const MonitorContext& context)
        : longest_s_(context.limits.start_capacitor_max_s) {}

    void observe(const TickView& view, double /*line_voltage_rms_V*/) {
        if (!view.plant.start_capacitor_in) {
            in_s_ = 0.0;
            return;
        }
        if (!view.plant.line_connected) {
            return;
        }
        in_s_ += 1e-9 * static_cast<double>(tick_length.count());
        if (!violation_ && in_s_ > longest_s_) {
            violation_ = Violation{view.plant.time_s, in_s_, longest_s_, "s"};
        }
    }
    const std::optional<Violation>& violation() const { return violation_; }

  private:
    double longest_s_;
    double in_s_ = 0.0;
    std::optional<Violation> violation_;
};

}  // namespace sim
