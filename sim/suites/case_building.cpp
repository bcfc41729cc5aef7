#include "sim/suites/case_building.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/campaigns/single_faults.hpp"
#include "sim/scenario/fitting_together.hpp"
#include "sim/suites/suite_tables.hpp"

namespace sim {

namespace {

using Layers = std::vector<ScenarioLayer>;

void append(Layers& layers, const Layers& more) {
    layers.insert(layers.end(), more.begin(), more.end());
}

/// What the base says of a part that the side replaces does not count.
Layers base_layers(const BlockBase& base, const Cell& cell) {
    std::vector<std::string_view> replaced;
    const auto add = [&replaced](const std::vector<std::string_view>& names) {
        replaced.insert(replaced.end(), names.begin(), names.end());
    };
    if (!cell.compressor->layers.empty()) {
        add(tables_of_unit());
    }
    if (!cell.supply->layers.empty()) {
        add(tables_of_supply());
    }
    Layers layers;
    for (const ScenarioLayer& layer : base.layers) {
        layers.push_back(layer.without(replaced));
    }
    return layers;
}

/// Where nothing says what stands between line and motor.
const ScenarioLayer& direct_start() {
    static const ScenarioLayer layer = layer_of(
        parsed_file("[limiter]\nkind = \"none\"\n", "a suite's direct start", "its [table]"));
    return layer;
}

ScenarioLayer limiter_for(const Scenario& unit) {
    // With a limiter of its own the unit keeps it; the trade takes the other aid out all the same.
    const std::string limiter =
        std::holds_alternative<NoLimiter>(unit.limiter)
            ? fmt::format("[limiter]\nkind = \"builtin\"\nstart_capacitor_uF = {}\n",
                          usual_start_capacitor_uF(unit))
            : std::string();
    return layer_of(parsed_file(limiter + "[start_aid]\nkind = \"none\"\n",
                                "a suite's usual limiter", "its [table]"));
}

/// From below the setting on.
Layers layers_of_unit(const BlockBase& base, const Cell& cell) {
    Layers layers;
    append(layers, cell.condition->layers);
    append(layers, cell.supply->layers);
    append(layers, cell.compressor->layers);
    append(layers, base_layers(base, cell));
    layers.push_back(direct_start());
    return layers;
}

Scenario read(const BlockBase& base, const Layers& layers) {
    Scenario scenario;
    read_layers(layers, 0, base.place, scenario);
    return scenario;
}

/// What the way puts below the setting's own tables; empty if none.
Layers layers_of_way(const BlockBase& base, const Cell& cell, const Layers& unit) {
    if (cell.setting->way != Way::limiter) {
        return {};
    }
    // Without what only a limiter can have, which the unit has not got yet.
    Layers bare;
    for (const ScenarioLayer& layer : unit) {
        bare.push_back(layer.without({"fault", change_table}));
    }
    return {limiter_for(read(base, bare))};
}

/// The unit with the start aid of its way; the limiter's is read with the other layers.
std::optional<Scenario> fitted(const Scenario& scenario, const std::optional<Way>& way) {
    if (!way || *way == Way::limiter) {
        return scenario;
    }
    std::optional<Scenario> other = brought_up(scenario, *way);
    if (other) {
        other->faults = scenario.faults;
        other->changes = scenario.changes;
        for (const Fault& fault : other->faults) {
            if (!misfit_of_fault(fault, *other).empty()) {
                return std::nullopt;
            }
        }
    }
    return other;
}

bool add_single_fault(const FaultChoice& choice, Scenario& scenario) {
    std::vector<SingleFault> all = single_faults(scenario);
    const auto found = std::find_if(all.begin(), all.end(), [&choice](const SingleFault& one) {
        return one.name == choice.single;
    });
    if (found == all.end()) {
        return false;
    }
    found->fault.timing.at_s = found->only_from_the_beginning ? 0.0 : choice.at_s;
    scenario.faults.push_back(found->fault);
    return true;
}

}  // namespace

Scenario pair_of(const BlockBase& base, const Cell& cell) {
    Scenario scenario;
    read_layer_tables(layers_of_unit(base, cell), 0, base.place, scenario);
    return scenario;
}

std::optional<Scenario> scenario_of(const BlockBase& base, const Cell& cell) {
    const Layers unit = layers_of_unit(base, cell);
    Layers layers = cell.setting->layers;
    append(layers, layers_of_way(base, cell, unit));
    append(layers, cell.fault->layers);
    append(layers, unit);
    std::optional<Scenario> scenario = fitted(read(base, layers), cell.setting->way);
    if (scenario && !cell.fault->single.empty() && !add_single_fault(*cell.fault, *scenario)) {
        return std::nullopt;
    }
    if (scenario) {
        scenario->library = base.library;
        if (!cell.compressor->layers.empty()) {
            scenario->library.compressor = cell.compressor->library;
        }
        if (!cell.supply->layers.empty()) {
            scenario->library.supply = cell.supply->library;
        }
    }
    return scenario;
}

}  // namespace sim
