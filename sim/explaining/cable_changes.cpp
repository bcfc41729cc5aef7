// Changes of the conductors between the supply and the unit.
#include <algorithm>
#include <string>
#include <string_view>

#include "plant_models/wiring/conductor.hpp"
#include "sim/explaining/change_list.hpp"

namespace sim {

namespace {

using plant_models::WiringParameters;

constexpr double shortest_share = 0.1;
constexpr double longest_factor = 10.0;
constexpr std::size_t most_sizes_up = 4;

struct Cable {
    const char* name;
    const char* what;
    double WiringParameters::*length_m;
    std::string_view WiringParameters::*size;
};

constexpr Cable cables[] = {
    {"branch", "cable to the unit", &WiringParameters::branch_length_m,
     &WiringParameters::branch_size},
    {"service", "cable to the panel", &WiringParameters::service_length_m,
     &WiringParameters::service_size},
};

Changes cable_lengths(const Scenario& scenario, const std::string& how, double factor) {
    Changes changes;
    for (const Cable& cable : cables) {
        if (scenario.wiring.*cable.length_m <= 0.0) {
            continue;
        }
        Change change;
        change.name = how + "_" + cable.name + "_cable";
        change.what = "a " + how + " " + cable.what;
        change.unit = "m";
        change.subject = std::string("length of the ") + cable.what;
        change.spacing = Spacing::ratio;
        change.given = scenario.wiring.*cable.length_m;
        change.boldest = factor * change.given;
        change.set = [length_m = cable.length_m](Scenario& changed, double value) {
            changed.wiring.*length_m = value;
        };
        changes.push_back(change);
    }
    return changes;
}

bool is_gauge(std::string_view size) {
    return size.find("AWG") != std::string_view::npos;
}

}  // namespace

Changes shorter_cable(const Scenario& scenario) {
    return cable_lengths(scenario, "shorter", shortest_share);
}

Changes longer_cable(const Scenario& scenario) {
    return cable_lengths(scenario, "longer", longest_factor);
}

Changes thicker_cable(const Scenario& scenario) {
    Changes changes;
    const auto& sizes = plant_models::conductors();
    const auto material = scenario.wiring.material == "copper"
                              ? plant_models::ConductorMaterial::copper
                              : plant_models::ConductorMaterial::aluminium;
    for (const Cable& cable : cables) {
        const std::string_view size = scenario.wiring.*cable.size;
        const plant_models::Conductor* now = plant_models::find_conductor(size);
        if (scenario.wiring.*cable.length_m <= 0.0 || now == nullptr) {
            continue;
        }
        Change change;
        change.name = std::string("thicker_") + cable.name + "_cable";
        change.what = std::string("a thicker ") + cable.what;
        change.subject = change.what;
        change.spacing = Spacing::steps;
        change.given = static_cast<double>(now - sizes.data());
        for (std::size_t k = static_cast<std::size_t>(now - sizes.data()) + 1;
             k < sizes.size() && change.steps.size() < most_sizes_up; ++k) {
            if (sizes[k].is_made_of(material) && is_gauge(sizes[k].size) == is_gauge(size)) {
                change.steps.push_back(static_cast<double>(k));
            }
        }
        if (change.steps.empty()) {
            continue;
        }
        change.boldest = change.steps.back();
        change.set = [member = cable.size](Scenario& changed, double value) {
            changed.wiring.*member =
                plant_models::conductors()[static_cast<std::size_t>(value)].size;
        };
        change.say = [](double value) {
            return std::string(plant_models::conductors()[static_cast<std::size_t>(value)].size);
        };
        changes.push_back(change);
    }
    return changes;
}

}  // namespace sim
