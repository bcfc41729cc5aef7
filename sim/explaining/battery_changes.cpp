// Changes of the battery behind an inverter: how many strings lie side by side, and how full it is.
//
// How far the voltage without load goes: an iron phosphate cell stands within some six per cent
// about its middle between nearly empty and full (common practice, recalled).
#include <variant>

#include "sim/explaining/change_list.hpp"
#include "sim/explaining/pinned_inverter.hpp"

namespace sim {

namespace {

using plant_models::InverterParameters;
using plant_models::TransformerInverterParameters;

constexpr double largest_bank = 4.0;
constexpr double smallest_bank = 0.25;
constexpr double fullest = 1.06;
constexpr double emptiest = 0.90;

void enlarge_bank(InverterParameters& inverter, double strings) {
    inverter.battery_resistance_mohm /= strings;
    inverter.battery_protection_A *= strings;
    inverter.battery_short_circuit_A *= strings;
}

void enlarge_bank(TransformerInverterParameters& inverter, double strings) {
    inverter.battery_resistance_ohm /= strings;
    inverter.battery_current_A *= strings;
    inverter.battery_surge_current_A *= strings;
}

template <class Inverter>
Change bank(const Inverter& /*given*/, const char* name, const char* what, double factor) {
    Change change;
    change.name = name;
    change.what = what;
    change.unit = "times its size";
    change.subject = "battery size";
    change.spacing = Spacing::ratio;
    change.given = 1.0;
    change.boldest = factor;
    change.set = [](Scenario& changed, double value) {
        auto& inverter = std::get<Inverter>(changed.source);
        inverter = pinned(inverter);
        enlarge_bank(inverter, value);
    };
    return change;
}

template <class Inverter>
Change voltage(const Inverter& given, const char* name, const char* what, double factor) {
    Change change;
    change.name = name;
    change.what = what;
    change.unit = "V without load";
    change.subject = "battery voltage";
    change.spacing = Spacing::ratio;
    change.given = given.battery_voltage_V;
    change.boldest = factor * given.battery_voltage_V;
    change.set = [](Scenario& changed, double value) {
        auto& inverter = std::get<Inverter>(changed.source);
        inverter = pinned(inverter);
        inverter.battery_voltage_V = value;
    };
    return change;
}

template <class Make>
Changes of_battery(const Scenario& scenario, Make make) {
    if (const auto* inverter = std::get_if<InverterParameters>(&scenario.source)) {
        return inverter->has_battery() ? Changes{make(*inverter)} : Changes{};
    }
    if (const auto* transformer = std::get_if<TransformerInverterParameters>(&scenario.source)) {
        return {make(*transformer)};
    }
    return {};
}

}  // namespace

Changes larger_battery(const Scenario& scenario) {
    return of_battery(scenario, [](const auto& inverter) {
        return bank(inverter, "larger_battery", "a larger battery, with its protection",
                    largest_bank);
    });
}

Changes smaller_battery(const Scenario& scenario) {
    return of_battery(scenario, [](const auto& inverter) {
        return bank(inverter, "smaller_battery", "a smaller battery, with its protection",
                    smallest_bank);
    });
}

Changes fuller_battery(const Scenario& scenario) {
    return of_battery(scenario, [](const auto& inverter) {
        return voltage(inverter, "fuller_battery", "a fuller battery", fullest);
    });
}

Changes emptier_battery(const Scenario& scenario) {
    return of_battery(scenario, [](const auto& inverter) {
        return voltage(inverter, "emptier_battery", "an emptier battery", emptiest);
    });
}

}  // namespace sim
