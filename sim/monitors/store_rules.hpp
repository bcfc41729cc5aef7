// The controller changes its store by the rules of flash: a word is written once between two erases
// of its page, within the store, one command at a time. What breaks them works on the bench and
// fails on the board, sooner or later.
#pragma once

#include "sim/monitors/monitor.hpp"

namespace sim {

class StoreRules {
  public:
    static constexpr std::string_view name = "store_written_against_its_rules";

    explicit StoreRules(const MonitorContext& /*context*/) {}

    void observe(const TickView& view, double /*line_voltage_rms_V*/) {
        if (view.store == nullptr) {
            return;
        }
        const FlashStore::Faults& faults = view.store->faults();
        const int broken = faults.out_of_range + faults.unfit_words + faults.while_busy;
        // Those before this run are not of it.
        const int before = before_.value_or(broken);
        before_ = before;
        if (!violation_ && broken > before) {
            violation_ =
                Violation{view.plant.time_s, static_cast<double>(broken - before), 0.0, "commands"};
        }
    }
    const std::optional<Violation>& violation() const { return violation_; }

  private:
    std::optional<int> before_;
    std::optional<Violation> violation_;
};

}  // namespace sim
