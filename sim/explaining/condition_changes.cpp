// Changes of the weather and of the time that the unit has stood still.
#include <algorithm>
#include <variant>

#include "sim/explaining/change_list.hpp"

namespace sim {

namespace {

using plant_models::Conditions;

constexpr double a_day_s = 86400.0;
constexpr double an_hour_s = 3600.0;
constexpr double shortest_rest_s = 1.0;
constexpr double rest_step_s = 5.0;
constexpr double temperature_step_K = 0.5;
constexpr double cooler_by_K = 20.0;
constexpr double coolest_remedy_C = 5.0;
constexpr double warm_day_C = 25.0;
constexpr double hottest_C = 55.0;
constexpr double coldest_C = -25.0;
/// The most that a crankcase heater is given here; the table allows 40 K.
constexpr double warmest_oil_K = 35.0;

bool has_gas(const Scenario& scenario) {
    return !std::holds_alternative<plant_models::PolynomialLoadParameters>(scenario.load);
}

bool has_heat(const Scenario& scenario) {
    return std::holds_alternative<plant_models::HeatParameters>(scenario.unit.heat);
}

/// Whether anything in the unit knows of the rest or of the air.
bool feels_conditions(const Scenario& scenario) {
    return has_gas(scenario) || has_heat(scenario) ||
           std::holds_alternative<plant_models::LineBreakParameters>(scenario.unit.protector) ||
           std::holds_alternative<plant_models::ThermistorParameters>(scenario.unit.start_aid);
}

Change condition(const Scenario& scenario, const char* name, const char* what, const char* unit,
                 double Conditions::*figure, double boldest) {
    Change change;
    change.name = name;
    change.what = what;
    change.unit = unit;
    change.subject = figure == &Conditions::ambient_C ? "air"
                     : figure == &Conditions::rest_s  ? "rest"
                                                      : "oil";
    change.spacing = Spacing::difference;
    change.resolution = temperature_step_K;
    change.given = scenario.conditions.*figure;
    change.boldest = boldest;
    change.set = [figure](Scenario& changed, double value) { changed.conditions.*figure = value; };
    return change;
}

Changes rest(const Scenario& scenario, const char* name, const char* what, double boldest_s) {
    if (!feels_conditions(scenario)) {
        return {};
    }
    Change change = condition(scenario, name, what, "s", &Conditions::rest_s, boldest_s);
    change.spacing = Spacing::ratio;
    return {change};
}

Changes ambient(const Scenario& scenario, const char* name, const char* what, double boldest_C) {
    return feels_conditions(scenario)
               ? Changes{condition(scenario, name, what, "C", &Conditions::ambient_C, boldest_C)}
               : Changes{};
}

}  // namespace

Changes longer_rest(const Scenario& scenario) {
    const double given_s = scenario.conditions.rest_s;
    if (given_s >= a_day_s) {
        return {};
    }
    Changes changes =
        rest(scenario, "longer_rest", "a longer rest", std::max(an_hour_s, 10.0 * given_s));
    if (given_s < shortest_rest_s) {
        // Ratios begin above nothing.
        for (Change& change : changes) {
            change.spacing = Spacing::difference;
            change.resolution = rest_step_s;
        }
    }
    return changes;
}

Changes shorter_rest(const Scenario& scenario) {
    return scenario.conditions.rest_s > shortest_rest_s
               ? rest(scenario, "shorter_rest", "a shorter rest", shortest_rest_s)
               : Changes{};
}

Changes cooler_day(const Scenario& scenario) {
    const double boldest_C =
        std::max(scenario.conditions.ambient_C - cooler_by_K, coolest_remedy_C);
    return boldest_C < scenario.conditions.ambient_C
               ? ambient(scenario, "cooler_day", "a cooler day", boldest_C)
               : Changes{};
}

Changes warmer_day(const Scenario& scenario) {
    return scenario.conditions.ambient_C < warm_day_C
               ? ambient(scenario, "warmer_day", "a warmer day", warm_day_C)
               : Changes{};
}

Changes hotter_day(const Scenario& scenario) {
    return scenario.conditions.ambient_C < hottest_C
               ? ambient(scenario, "hotter_day", "a hotter day", hottest_C)
               : Changes{};
}

Changes colder_day(const Scenario& scenario) {
    return scenario.conditions.ambient_C > coldest_C
               ? ambient(scenario, "colder_day", "a colder day", coldest_C)
               : Changes{};
}

/// Thick oil needs both: a shell whose temperature is followed, and a compressor that holds oil.
Changes warmer_oil(const Scenario& scenario) {
    if (!has_heat(scenario) || !has_gas(scenario) ||
        scenario.conditions.oil_warming_K >= warmest_oil_K) {
        return {};
    }
    return {condition(scenario, "warmer_oil", "warmer oil, by a crankcase heater",
                      "K above the air", &Conditions::oil_warming_K, warmest_oil_K)};
}

}  // namespace sim
