// Start aids of the trade for a unit without a limiter.
#include <variant>

#include "plant_models/parameter_defaults.hpp"
#include "sim/explaining/change_list.hpp"
#include "sim/explaining/start_capacitor_sizes.hpp"

namespace sim {

namespace {

using plant_models::PotentialRelayParameters;
using plant_models::ThermistorParameters;

constexpr double largest_capacitor_factor = 3.0;
/// Parts for 230 V have 25 to 50 ohm (plant_models/unit/thermistor.hpp); others in proportion to
/// the square of the voltage, as the power goes.
constexpr double thermistors_at_230_V_ohm[] = {25.0, 50.0};

bool may_have_aid(const Scenario& scenario) {
    return std::holds_alternative<NoLimiter>(scenario.limiter) &&
           std::holds_alternative<plant_models::NoStartAid>(scenario.unit.start_aid) &&
           scenario.motor.run_capacitor_uF > 0.0;
}

}  // namespace

Changes capacitor_and_relay(const Scenario& scenario) {
    if (!may_have_aid(scenario)) {
        return {};
    }
    Change change = fit_start_capacitor("capacitor_and_relay",
                                        "a potential relay with a start capacitor", scenario);
    change.set = [](Scenario& changed, double value) {
        auto& relay = changed.unit.start_aid.emplace<PotentialRelayParameters>(
            plant_models::table_defaults<PotentialRelayParameters>());
        relay.start_capacitor_uF = value;
    };
    return {change};
}

Changes thermistor_across_run_capacitor(const Scenario& scenario) {
    if (!may_have_aid(scenario)) {
        return {};
    }
    Change change;
    change.name = "thermistor";
    change.what = "a start thermistor across the run capacitor";
    change.unit = "ohm cold";
    change.subject = "start aid";
    change.spacing = Spacing::steps;
    const double voltage_share = scenario.motor.rated_voltage_V / 230.0;
    for (const double at_230_V_ohm : thermistors_at_230_V_ohm) {
        Change rounding;
        change.steps.push_back(round_value(rounding, at_230_V_ohm * voltage_share * voltage_share));
    }
    change.boldest = change.steps.front();
    change.set = [](Scenario& changed, double value) {
        auto& thermistor = changed.unit.start_aid.emplace<ThermistorParameters>(
            plant_models::table_defaults<ThermistorParameters>());
        thermistor.cold_resistance_ohm = value;
    };
    return {change};
}

Changes larger_relay_capacitor(const Scenario& scenario) {
    const auto* relay = std::get_if<PotentialRelayParameters>(&scenario.unit.start_aid);
    if (relay == nullptr) {
        return {};
    }
    Change change;
    change.name = "larger_relay_capacitor";
    change.what = "a larger start capacitor";
    change.unit = "uF";
    change.subject = "start aid";
    change.spacing = Spacing::ratio;
    change.given = relay->start_capacitor_uF;
    change.boldest = largest_capacitor_factor * relay->start_capacitor_uF;
    change.set = [](Scenario& changed, double value) {
        std::get<PotentialRelayParameters>(changed.unit.start_aid).start_capacitor_uF = value;
    };
    return {change};
}

}  // namespace sim
