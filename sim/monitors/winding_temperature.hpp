// Never a stator winding hotter than its limit; how hot it is, where the plant does not model it:
// sim/metrics/winding_heat.hpp. It is judged in a direct start as well: heat asks nobody.
#pragma once

#include "sim/monitors/monitor.hpp"

namespace sim {

class WindingTemperature {
  public:
    static constexpr std::string_view name = "winding_too_hot";

    explicit WindingTemperature(const MonitorContext& context)
        : highest_C_(context.limits.winding_max_C) {}

    void observe(const TickView& view, double /*line_voltage_rms_V*/) {
        if (!violation_ && view.hottest_winding_C > highest_C_) {
            violation_ = Violation{view.plant.time_s, view.hottest_winding_C, highest_C_, "C"};
        }
    }
    const std::optional<Violation>& violation() const { return violation_; }

  private:
    double highest_C_;
    std::optional<Violation> violation_;
};

}  // namespace sim
