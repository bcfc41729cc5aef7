// Outputs off within one tick of the call going away: the frame that answers the first sample
// without a call must already have every output off.
#pragma once

#include "sim/monitors/monitor.hpp"

namespace sim {

class CallGone {
  public:
    static constexpr std::string_view name = "outputs_on_after_call_ended";

    explicit CallGone(const MonitorContext& context) : has_limiter_(context.has_limiter) {}

    void observe(const TickView& view, double /*line_voltage_rms_V*/) {
        if (!has_limiter_ || view.call_for_cooling) {
            ticks_without_call_ = 0;
            return;
        }
        const PowerCommands& commands = view.commands;
        const bool any = commands.line_coil || commands.start_capacitor_coil ||
                         commands.bypass_coil || commands.gate_off > commands.gate_on;
        // At the first of these ticks the controller sees the call gone; its answer is in force
        // from the second to the third, which is the first that has to be clean.
        if (!violation_ && any && ticks_without_call_ >= 2) {
            violation_ = Violation{view.plant.time_s, static_cast<double>(ticks_without_call_), 1.0,
                                   "ticks"};
        }
        ++ticks_without_call_;
    }
    const std::optional<Violation>& violation() const { return violation_; }

  private:
    bool has_limiter_;
    long ticks_without_call_ = 0;
    std::optional<Violation> violation_;
};

}  // namespace sim
