// Changes of the two kinds of inverter. One figure at a time: what the model would derive from it
// keeps its value, except in "size of the inverter", which moves every rating together.
#include <fmt/format.h>

#include <variant>

#include "sim/explaining/change_list.hpp"
#include "sim/explaining/pinned_inverter.hpp"

namespace sim {

namespace {

using plant_models::InverterParameters;
using plant_models::TransformerInverterParameters;

constexpr double boldest_factor = 3.0;
constexpr double weakest_share = 0.25;
constexpr double most_storage = 8.0;

const InverterParameters* inverter_of(const Scenario& scenario) {
    return std::get_if<InverterParameters>(&scenario.source);
}

/// One figure of the inverter, times a factor; nothing else follows.
Changes inverter_figure(const Scenario& scenario, const char* name, const char* what,
                        const char* unit, double InverterParameters::*figure, double factor) {
    const InverterParameters* inverter = inverter_of(scenario);
    if (inverter == nullptr) {
        return {};
    }
    Change change;
    change.name = name;
    change.what = what;
    change.unit = unit;
    change.subject = what;
    change.spacing = Spacing::ratio;
    change.given = inverter->completed().*figure;
    change.boldest = factor * change.given;
    change.set = [figure](Scenario& changed, double value) {
        auto& with = std::get<InverterParameters>(changed.source);
        with = pinned(with);
        with.*figure = value;
    };
    return {change};
}

Changes current_limit(const Scenario& scenario, const char* name, const char* what, double factor) {
    Changes changes = inverter_figure(scenario, name, what, "A of peak current",
                                      &InverterParameters::peak_current_limit_A, factor);
    for (Change& change : changes) {
        change.set = [given = *inverter_of(scenario)](Scenario& changed, double value) {
            auto& with = std::get<InverterParameters>(changed.source);
            with = pinned(with);
            with.peak_current_limit_A = value;
            // The softer methods limit at a share of the same limit.
            with.limited_current_A = given.limited_current_A;
            with.virtual_threshold_A = given.virtual_threshold_A;
        };
    }
    return changes;
}

void resize(InverterParameters& inverter, double ratio) {
    const InverterParameters fixed = pinned(inverter);
    inverter = fixed;
    // A figure that is 0 is one that this inverter's laws do not use.
    for (double InverterParameters::*rating :
         {&InverterParameters::peak_current_limit_A, &InverterParameters::limited_current_A,
          &InverterParameters::virtual_threshold_A, &InverterParameters::rated_current_A,
          &InverterParameters::refill_power_W, &InverterParameters::bus_capacitance_uF,
          &InverterParameters::surge_power_W}) {
        inverter.*rating = ratio * (fixed.*rating);
    }
}

/// The battery stays: what it gives is another question.
void resize(TransformerInverterParameters& inverter, double ratio) {
    const TransformerInverterParameters full = inverter.completed();
    inverter = full;
    inverter.rated_power_W = ratio * full.rated_power_W;
    inverter.surge_power_W = ratio * full.surge_power_W;
    inverter.peak_current_A = ratio * full.peak_current_A;
    inverter.input_capacitance_uF = ratio * full.input_capacitance_uF;
}

template <class Inverter>
Changes size_of(const char* name, const char* what, double rated_VA, double factor) {
    Change change;
    change.name = name;
    change.what = what;
    change.unit = "VA";
    change.subject = "inverter size";
    change.spacing = Spacing::ratio;
    change.given = rated_VA;
    change.boldest = factor * rated_VA;
    change.set = [rated_VA](Scenario& changed, double value) {
        resize(std::get<Inverter>(changed.source), value / rated_VA);
    };
    return {change};
}

/// As a data sheet gives both: "7990 VA, 73.7 A of peak current".
void say_peak_too(Change& change, double peak_per_VA) {
    change.say = [peak_per_VA](double rated_VA) {
        return fmt::format("{:.0f} VA with {:.3g} A of peak current", rated_VA,
                           rated_VA * peak_per_VA);
    };
}

Changes inverter_size(const Scenario& scenario, const char* name, const char* what, double factor) {
    if (const InverterParameters* inverter = inverter_of(scenario)) {
        const double rated_VA = inverter->voltage_V * inverter->completed().rated_current_A;
        Changes changes = size_of<InverterParameters>(name, what, rated_VA, factor);
        say_peak_too(changes.front(), inverter->peak_current_limit_A / rated_VA);
        return changes;
    }
    const auto* transformer = std::get_if<TransformerInverterParameters>(&scenario.source);
    return transformer == nullptr ? Changes{}
                                  : size_of<TransformerInverterParameters>(
                                        name, what, transformer->rated_power_W, factor);
}

}  // namespace

Changes higher_current_limit(const Scenario& scenario) {
    return current_limit(scenario, "higher_current_limit", "a higher current limit of the inverter",
                         boldest_factor);
}

Changes lower_current_limit(const Scenario& scenario) {
    return current_limit(scenario, "lower_current_limit", "a lower current limit of the inverter",
                         weakest_share);
}

Changes longer_overload_time(const Scenario& scenario) {
    return inverter_figure(scenario, "longer_overload_time",
                           "a longer overload time of the inverter", "s",
                           &InverterParameters::overload_time_s, boldest_factor);
}

Changes more_bus_storage(const Scenario& scenario) {
    return inverter_figure(scenario, "more_bus_storage", "more storage at the inverter's bus", "uF",
                           &InverterParameters::bus_capacitance_uF, most_storage);
}

Changes less_bus_storage(const Scenario& scenario) {
    return inverter_figure(scenario, "less_bus_storage", "less storage at the inverter's bus", "uF",
                           &InverterParameters::bus_capacitance_uF, weakest_share);
}

Changes more_refill_power(const Scenario& scenario) {
    return inverter_figure(scenario, "more_refill_power", "more power that refills the bus", "W",
                           &InverterParameters::refill_power_W, boldest_factor);
}

Changes less_refill_power(const Scenario& scenario) {
    return inverter_figure(scenario, "less_refill_power", "less power that refills the bus", "W",
                           &InverterParameters::refill_power_W, weakest_share);
}

Changes larger_inverter(const Scenario& scenario) {
    return inverter_size(scenario, "larger_inverter", "a larger inverter, all its ratings together",
                         boldest_factor);
}

Changes smaller_inverter(const Scenario& scenario) {
    return inverter_size(scenario, "smaller_inverter",
                         "a smaller inverter, all its ratings together", weakest_share);
}

}  // namespace sim
