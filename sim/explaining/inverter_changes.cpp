// Changes of the two kinds of inverter. One figure at a time: what the model would derive from it
// keeps its value, except in "size of the inverter", which moves every rating together.
#include <variant>

#include "sim/explaining/change_list.hpp"

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
        with = with.completed();
        with.*figure = value;
    };
    return {change};
}

Changes current_limit(const Scenario& scenario, const char* name, double factor) {
    Changes changes =
        inverter_figure(scenario, name, "current limit of the inverter", "A of peak current",
                        &InverterParameters::peak_current_limit_A, factor);
    for (Change& change : changes) {
        change.set = [given = *inverter_of(scenario)](Scenario& changed, double value) {
            auto& with = std::get<InverterParameters>(changed.source);
            with = with.completed();
            with.peak_current_limit_A = value;
            // The softer methods limit at a share of the same limit.
            with.limited_current_A = given.limited_current_A;
            with.virtual_threshold_A = given.virtual_threshold_A;
        };
    }
    return changes;
}

void resize(InverterParameters& inverter, double ratio) {
    const InverterParameters full = inverter.completed();
    inverter = full;
    for (double InverterParameters::*rating :
         {&InverterParameters::peak_current_limit_A, &InverterParameters::limited_current_A,
          &InverterParameters::virtual_threshold_A, &InverterParameters::rated_current_A,
          &InverterParameters::refill_power_W, &InverterParameters::bus_capacitance_uF,
          &InverterParameters::surge_power_W}) {
        inverter.*rating = ratio * (full.*rating);
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
Changes size_of(const Scenario& scenario, const char* name, double rated_VA, double factor) {
    Change change;
    change.name = name;
    change.what = "size of the inverter, all its ratings together";
    change.unit = "VA for ever";
    change.subject = "inverter size";
    change.spacing = Spacing::ratio;
    change.given = rated_VA;
    change.boldest = factor * rated_VA;
    change.set = [rated_VA, given = std::get<Inverter>(scenario.source)](Scenario& changed,
                                                                         double value) {
        Inverter resized = given;
        resize(resized, value / rated_VA);
        changed.source = resized;
    };
    return {change};
}

Changes inverter_size(const Scenario& scenario, const char* name, double factor) {
    if (const InverterParameters* inverter = inverter_of(scenario)) {
        const double rated_VA = inverter->voltage_V * inverter->completed().rated_current_A;
        return size_of<InverterParameters>(scenario, name, rated_VA, factor);
    }
    const auto* transformer = std::get_if<TransformerInverterParameters>(&scenario.source);
    return transformer == nullptr ? Changes{}
                                  : size_of<TransformerInverterParameters>(
                                        scenario, name, transformer->rated_power_W, factor);
}

}  // namespace

Changes higher_current_limit(const Scenario& scenario) {
    return current_limit(scenario, "higher_current_limit", boldest_factor);
}

Changes lower_current_limit(const Scenario& scenario) {
    return current_limit(scenario, "lower_current_limit", weakest_share);
}

Changes longer_overload_time(const Scenario& scenario) {
    return inverter_figure(scenario, "longer_overload_time", "overload time of the inverter", "s",
                           &InverterParameters::overload_time_s, boldest_factor);
}

Changes more_bus_storage(const Scenario& scenario) {
    return inverter_figure(scenario, "more_bus_storage", "storage of the inverter's bus", "uF",
                           &InverterParameters::bus_capacitance_uF, most_storage);
}

Changes less_bus_storage(const Scenario& scenario) {
    return inverter_figure(scenario, "less_bus_storage", "storage of the inverter's bus", "uF",
                           &InverterParameters::bus_capacitance_uF, weakest_share);
}

Changes more_refill_power(const Scenario& scenario) {
    return inverter_figure(scenario, "more_refill_power", "power that refills the bus", "W",
                           &InverterParameters::refill_power_W, boldest_factor);
}

Changes less_refill_power(const Scenario& scenario) {
    return inverter_figure(scenario, "less_refill_power", "power that refills the bus", "W",
                           &InverterParameters::refill_power_W, weakest_share);
}

Changes larger_inverter(const Scenario& scenario) {
    return inverter_size(scenario, "larger_inverter", boldest_factor);
}

Changes smaller_inverter(const Scenario& scenario) {
    return inverter_size(scenario, "smaller_inverter", weakest_share);
}

}  // namespace sim
