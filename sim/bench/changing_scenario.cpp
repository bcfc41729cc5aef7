#include "sim/bench/changing_scenario.hpp"

#include <fmt/format.h>

#include <variant>

#include "plant_models/loads/friction.hpp"
#include "sim/files/input_error.hpp"
#include "sim/scenario/parameter_bounds.hpp"
#include "sim/scenario/part_scaling.hpp"

namespace sim {

namespace {

/// A day: pressures, heat and oil are those of a unit that has long stood still.
constexpr double exchanged_rest_s = 86400.0;

}  // namespace

ChangingScenario::ChangingScenario(const Scenario& scenario, double rest_between_s, int starts)
    : base_(scenario), now_(scenario), rest_s_(rest_between_s) {
    if (scenario.changes.empty()) {
        return;
    }
    ChangingScenario ahead = *this;
    for (int start = 2; start <= starts; ++start) {
        if (ahead.enter(start)) {
            ahead.refuse_if_out_of_bounds();
        }
    }
}

bool ChangingScenario::enter(int start) {
    start_ = start;
    words_.clear();
    kept_ = KeptParts{};
    const double line_voltage_before = line_voltage_;
    bool changed = false;
    if (taken_ < base_.changes.size() && base_.changes[taken_].before_start == start) {
        take(base_.changes[taken_]);
        words_ = words_for(base_.changes[taken_]);
        ++taken_;
        changed = true;
    }
    run_capacitor_ *= run_capacitor_per_start_;
    friction_ *= friction_per_start_;
    changed = changed || run_capacitor_per_start_ != 1.0 || friction_per_start_ != 1.0;
    kept_.supply = line_voltage_ == line_voltage_before;
    if (changed) {
        apply();
    }
    return changed;
}

void ChangingScenario::take(const ScenarioChange& change) {
    if (change.exchanged) {
        base_.motor = change.exchanged->motor;
        base_.load = change.exchanged->load;
        base_.refrigerant = change.exchanged->refrigerant;
        base_.unit = change.exchanged->unit;
        base_.conditions.rest_s = exchanged_rest_s;
        run_capacitor_ = 1.0;
        friction_ = 1.0;
        run_capacitor_per_start_ = 1.0;
        friction_per_start_ = 1.0;
        kept_.unit = false;
    }
    base_.conditions.ambient_C = change.ambient_C.value_or(base_.conditions.ambient_C);
    rest_s_ = change.rest_between_s.value_or(rest_s_);
    line_voltage_ = change.line_voltage_factor.value_or(line_voltage_);
    run_capacitor_ = change.run_capacitor_factor.value_or(run_capacitor_);
    friction_ = change.friction_factor.value_or(friction_);
    run_capacitor_per_start_ =
        change.run_capacitor_factor_per_start.value_or(run_capacitor_per_start_);
    friction_per_start_ = change.friction_factor_per_start.value_or(friction_per_start_);
}

void ChangingScenario::apply() {
    now_ = base_;
    scale_run_capacitor(now_.motor, run_capacitor_);
    now_.motor.friction_loss_W *= friction_;
    plant_models::scale_friction(now_.load, friction_);
    // The reader has refused a factor for supplies that hold their own.
    scale_line_voltage(now_.source, line_voltage_);
}

void ChangingScenario::refuse_latest(const std::string& fault) const {
    const ScenarioChange& change = base_.changes[taken_ - 1];
    throw InputError(change.file, change.line, std::string(change_table),
                     fmt::format("before start {}, {}", start_, fault));
}

void ChangingScenario::refuse_if_out_of_bounds() const {
    const auto bounds = [](const auto& one) { return out_of_bounds(one); };
    for (const std::string& fault : {out_of_bounds(now_.motor), std::visit(bounds, now_.load),
                                     std::visit(bounds, now_.source)}) {
        if (!fault.empty()) {
            refuse_latest(fault);
        }
    }
}

}  // namespace sim
