#include "sim/suites/figure_list.hpp"

#include <algorithm>

namespace sim {

namespace {

using Value = std::optional<double>;

/// A figure that some starts do not have.
template <std::optional<double> StartFigures::*member>
Value optional_figure(const StartResult& result) {
    return result.figures.*member;
}

template <double StartFigures::*member>
Value figure(const StartResult& result) {
    return result.figures.*member;
}

/// In percent of the supply's voltage, so that one limit goes for every supply.
template <std::optional<double> StartFigures::*member>
Value share_of_supply(const StartResult& result) {
    const Value voltage_V = result.figures.*member;
    if (!voltage_V || result.supply_voltage_V <= 0.0) {
        return std::nullopt;
    }
    return 100.0 * *voltage_V / result.supply_voltage_V;
}

template <double StartFigures::*member>
Value share_of_synchronous(const StartResult& result) {
    if (result.synchronous_speed_rpm <= 0.0) {
        return std::nullopt;
    }
    return 100.0 * (result.figures.*member) / result.synchronous_speed_rpm;
}

Value tries(const StartResult& result) {
    if (!result.has_limiter) {
        return std::nullopt;
    }
    double count = 0.0;
    firmware::State before = firmware::State::resting;
    for (const ControllerStep& step : result.controller_steps) {
        const bool probes =
            step.state == firmware::State::probing && before != firmware::State::probing;
        // Of one that tells no states: that it begins to feed.
        const bool begins =
            step.seen && firmware::feeds_motor(step.state) && !firmware::feeds_motor(before);
        count += probes || begins ? 1.0 : 0.0;
        before = step.state;
    }
    return count;
}

Value highest_stage(const StartResult& result) {
    Value highest;
    for (const ControllerStep& step : result.controller_steps) {
        if (step.state == firmware::State::climbing && step.has_stage) {
            highest = std::max(highest.value_or(0.0), 1.0 + step.stage);
        }
    }
    return highest;
}

Value hottest_winding(const StartResult& result) {
    return result.hottest_winding_C;
}

template <double plant_models::EnergyAudit::*member>
Value energy(const StartResult& result) {
    return result.energy.*member;
}

Value losses(const StartResult& result) {
    return result.energy.loss_J();
}

Value energy_closure(const StartResult& result) {
    return 100.0 * result.energy.closure();
}

}  // namespace

const std::vector<Figure>& figure_list() {
    using F = StartFigures;
    using E = plant_models::EnergyAudit;
    static const std::vector<Figure> figures{
        {"time_to_speed_s", "when the speed first passes 90 % of synchronous", Better::lower,
         optional_figure<&F::time_to_speed_s>},
        {"handover_s", "when the bypass contact first touches", Better::lower,
         optional_figure<&F::handover_s>},
        {"final_speed_rpm", "speed at the end", Better::higher, figure<&F::final_speed_rpm>},
        {"final_speed_percent", "speed at the end, of synchronous", Better::higher,
         share_of_synchronous<&F::final_speed_rpm>},
        {"highest_speed_rpm", "highest speed on the way", Better::neither,
         figure<&F::highest_speed_rpm>},
        {"backwards_at_end_s", "how long the rotor has been turning backwards at the end",
         Better::lower, figure<&F::backwards_at_end_s>},
        {"line_current_peak_A", "largest instantaneous line current", Better::lower,
         figure<&F::line_current_peak_A>},
        {"line_current_peak_at_s", "when that was", Better::neither,
         figure<&F::line_current_peak_at_s>},
        {"line_current_half_cycle_rms_A", "largest RMS line current over a half cycle",
         Better::lower, optional_figure<&F::line_current_half_cycle_rms_max_A>},
        {"line_current_one_cycle_rms_A", "largest RMS line current over a cycle", Better::lower,
         optional_figure<&F::line_current_one_cycle_rms_max_A>},
        {"line_current_inrush_100ms_rms_A",
         "largest RMS line current over any 100 ms, as a clamp reads it", Better::lower,
         optional_figure<&F::line_current_inrush_100ms_rms_A>},
        {"line_voltage_half_cycle_rms_V", "lowest RMS line voltage over a half cycle",
         Better::higher, optional_figure<&F::line_voltage_half_cycle_rms_min_V>},
        {"line_voltage_one_cycle_rms_V", "lowest RMS line voltage over a cycle", Better::higher,
         optional_figure<&F::line_voltage_one_cycle_rms_min_V>},
        {"line_voltage_one_cycle_percent",
         "lowest RMS line voltage over a cycle, of the supply's voltage", Better::higher,
         share_of_supply<&F::line_voltage_one_cycle_rms_min_V>},
        {"start_capacitor_in_s", "how long the start capacitor was in, in total", Better::lower,
         figure<&F::start_capacitor_in_s>},
        {"tries_count", "how often the controller began a try; none in a direct start",
         Better::lower, tries},
        {"highest_stage_count", "stages of the ladder that were entered, at most", Better::lower,
         highest_stage},
        {"hottest_winding_C", "temperature of the hotter stator winding, at its highest",
         Better::lower, hottest_winding},
        {"source_energy_J", "energy out of the supply", Better::neither, energy<&E::source_J>},
        {"losses_J", "all losses together", Better::lower, losses},
        {"copper_loss_J", "losses in windings and cage", Better::lower, energy<&E::copper_J>},
        {"switch_loss_J", "losses in thyristors, contacts and arcs", Better::lower,
         energy<&E::switch_J>},
        {"load_energy_J", "mechanical work on the load", Better::neither, energy<&E::load_J>},
        {"energy_closure_percent",
         "what is missing in the energy balance, of the energy that passed", Better::lower,
         energy_closure},
    };
    return figures;
}

const Figure* figure_named(std::string_view name) {
    const std::vector<Figure>& all = figure_list();
    const auto found = std::find_if(all.begin(), all.end(),
                                    [name](const Figure& one) { return one.name == name; });
    return found == all.end() ? nullptr : &*found;
}

}  // namespace sim
