// The controller leaves its store alone while it drives anything: many processors stall while they
// write their flash, for tens of milliseconds in an erase, and can let go of nothing meanwhile.
#pragma once

#include "sim/monitors/monitor.hpp"

namespace sim {

class StoreWhileDriving {
  public:
    static constexpr std::string_view name = "store_changed_while_outputs_on";

    explicit StoreWhileDriving(const MonitorContext& /*context*/) {}

    void observe(const TickView& view, double /*line_voltage_rms_V*/) {
        if (view.store == nullptr) {
            return;
        }
        const int changed = view.store->faults().while_outputs_on;
        // Those before this run are not of it.
        const int before = before_.value_or(changed);
        before_ = before;
        if (!violation_ && changed > before) {
            violation_ = Violation{view.plant.time_s, static_cast<double>(changed - before), 0.0,
                                   "commands"};
        }
    }
    const std::optional<Violation>& violation() const { return violation_; }

  private:
    std::optional<int> before_;
    std::optional<Violation> violation_;
};

}  // namespace sim
