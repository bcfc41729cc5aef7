#include "sim/sizing/way.hpp"

#include <algorithm>
#include <cmath>
#include <variant>

#include "plant_models/numeric/units.hpp"
#include "plant_models/parameter_defaults.hpp"
#include "sim/bench/library_overview.hpp"

namespace sim {

namespace {

constexpr double start_over_run_capacitor = 3.0;
constexpr double least_start_capacitor_uF = 20.0;
constexpr double reactance_over_locked_impedance = 4.0;
constexpr double thermistor_ohm = 25.0;
constexpr double thermistor_at_V = 230.0;

bool has_aid(const Scenario& unit) {
    return !std::holds_alternative<plant_models::NoStartAid>(unit.unit.start_aid);
}

BuiltinLimiter usual_limiter(const Scenario& unit) {
    BuiltinLimiter limiter;
    form_of(limiter);  // fills in every default
    limiter.parts.start_capacitor_uF = usual_start_capacitor_uF(unit);
    return limiter;
}

plant_models::ThermistorParameters usual_thermistor(const Scenario& unit) {
    auto thermistor = plant_models::table_defaults<plant_models::ThermistorParameters>();
    const double voltage_share = unit.motor.rated_voltage_V / thermistor_at_V;
    thermistor.cold_resistance_ohm = thermistor_ohm * voltage_share * voltage_share;
    return thermistor;
}

plant_models::PotentialRelayParameters usual_relay(const Scenario& unit) {
    auto relay = plant_models::table_defaults<plant_models::PotentialRelayParameters>();
    relay.start_capacitor_uF = usual_start_capacitor_uF(unit);
    return relay;
}

}  // namespace

std::string_view word_of(Way way) {
    switch (way) {
        case Way::directly:
            return "directly";
        case Way::thermistor:
            return "thermistor";
        case Way::capacitor_relay:
            return "capacitor_relay";
        case Way::limiter:
            return "limiter";
    }
    return "";
}

double usual_start_capacitor_uF(const Scenario& unit) {
    const plant_models::MotorParameters& motor = unit.motor;
    if (motor.run_capacitor_uF > 0.0) {
        return std::max(least_start_capacitor_uF,
                        std::round(start_over_run_capacitor * motor.run_capacitor_uF));
    }
    const double reactance_ohm =
        reactance_over_locked_impedance * motor.rated_voltage_V / locked_rotor_A(unit);
    const double omega = 2.0 * plant_models::pi * motor.rated_frequency_Hz;
    return std::max(least_start_capacitor_uF, std::round(1e6 / (omega * reactance_ohm)));
}

std::optional<Scenario> brought_up(const Scenario& unit, Way way) {
    Scenario scenario = unit;
    scenario.faults.clear();
    scenario.changes.clear();
    scenario.expect = Expectation{};
    const bool has_run_capacitor = unit.motor.run_capacitor_uF > 0.0;
    if (way == Way::limiter) {
        if (std::holds_alternative<NoLimiter>(unit.limiter)) {
            scenario.limiter = usual_limiter(unit);
        }
        scenario.unit.start_aid = plant_models::NoStartAid{};
        return scenario;
    }
    scenario.limiter = NoLimiter{};
    if (way == Way::directly) {
        return has_run_capacitor || has_aid(unit) ? std::optional<Scenario>(scenario)
                                                  : std::nullopt;
    }
    if (!has_run_capacitor || has_aid(unit)) {
        return std::nullopt;
    }
    if (way == Way::thermistor) {
        scenario.unit.start_aid = usual_thermistor(unit);
    } else {
        scenario.unit.start_aid = usual_relay(unit);
    }
    return scenario;
}

}  // namespace sim
