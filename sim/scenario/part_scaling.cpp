#include "sim/scenario/part_scaling.hpp"

#include <string>
#include <type_traits>
#include <variant>

#include "sim/scenario/parameter_bounds.hpp"

namespace sim {

namespace {

using plant_models::AnySupplyParameters;
using plant_models::GeneratorParameters;
using plant_models::GridParameters;
using plant_models::InverterParameters;
using plant_models::SplitPhaseParameters;
using plant_models::TransformerInverterParameters;

bool scale_power(GridParameters& /*grid*/, double /*factor*/) {
    return false;
}
bool scale_power(SplitPhaseParameters& /*service*/, double /*factor*/) {
    return false;
}
bool scale_power(InverterParameters& inverter, double factor) {
    inverter = inverter.completed();
    for (double* limit :
         {&inverter.peak_current_limit_A, &inverter.rated_current_A, &inverter.limited_current_A,
          &inverter.virtual_threshold_A, &inverter.surge_power_W, &inverter.refill_power_W}) {
        *limit *= factor;
    }
    return true;
}
/// Its rating stays: the impedances of its transformer are shares of that.
bool scale_power(TransformerInverterParameters& inverter, double factor) {
    inverter = inverter.completed();
    inverter.surge_power_W *= factor;
    inverter.peak_current_A *= factor;
    return true;
}
bool scale_power(GeneratorParameters& generator, double factor) {
    generator = generator.completed();
    generator.engine_power_W *= factor;
    return true;
}

template <class Supply>
constexpr bool has_battery_v = std::is_same_v<Supply, InverterParameters> ||
                               std::is_same_v<Supply, TransformerInverterParameters>;

bool has_battery(const InverterParameters& inverter) {
    return inverter.has_battery();
}
bool has_battery(const TransformerInverterParameters& /*inverter*/) {
    return true;
}

double& resistance(InverterParameters& inverter) {
    return inverter.battery_resistance_mohm;
}
double& resistance(TransformerInverterParameters& inverter) {
    return inverter.battery_resistance_ohm;
}

/// Calls `change` with the completed inverter, if it has a battery.
template <class Change>
bool change_battery(AnySupplyParameters& source, const Change& change) {
    return std::visit(
        [&change](auto& supply) {
            if constexpr (has_battery_v<std::decay_t<decltype(supply)>>) {
                if (has_battery(supply)) {
                    supply = supply.completed();
                    change(supply);
                    return true;
                }
            }
            return false;
        },
        source);
}

}  // namespace

bool scale_line_voltage(AnySupplyParameters& source, double factor) {
    if (auto* grid = std::get_if<GridParameters>(&source)) {
        grid->voltage_V *= factor;
        return true;
    }
    if (auto* service = std::get_if<SplitPhaseParameters>(&source)) {
        service->leg_voltage_V *= factor;
        return true;
    }
    return false;
}

bool scale_source_impedance(AnySupplyParameters& source, double factor) {
    if (auto* grid = std::get_if<GridParameters>(&source)) {
        grid->resistance_ohm *= factor;
        grid->inductance_mH *= factor;
        return true;
    }
    if (auto* service = std::get_if<SplitPhaseParameters>(&source)) {
        service->leg_resistance_ohm *= factor;
        service->leg_inductance_mH *= factor;
        service->neutral_resistance_ohm *= factor;
        service->neutral_inductance_mH *= factor;
        return true;
    }
    return false;
}

bool scale_supply_power(AnySupplyParameters& source, double factor) {
    return std::visit([factor](auto& supply) { return scale_power(supply, factor); }, source);
}

bool scale_battery_voltage(AnySupplyParameters& source, double factor) {
    return change_battery(source,
                          [factor](auto& inverter) { inverter.battery_voltage_V *= factor; });
}

bool scale_battery_resistance(AnySupplyParameters& source, double factor) {
    return change_battery(source, [factor](auto& inverter) { resistance(inverter) *= factor; });
}

void set_phase(AnySupplyParameters& source, double phase_deg) {
    std::visit([phase_deg](auto& supply) { supply.phase_deg = phase_deg; }, source);
}

bool scale_run_capacitor(plant_models::MotorParameters& motor, double factor) {
    motor.run_capacitor_uF *= factor;
    return motor.run_capacitor_uF > 0.0;
}

void scale_winding_resistance(plant_models::MotorParameters& motor, double factor) {
    motor.main_resistance_ohm *= factor;
    motor.aux_resistance_ohm *= factor;
}

bool scale_start_capacitor(Scenario& scenario, const plant_models::MotorParameters& as_new,
                           double factor) {
    if (auto* parts = parts_of(scenario.limiter)) {
        parts->start_capacitor_uF *= factor;
        return parts->start_capacitor_uF > 0.0;
    }
    if (auto* relay =
            std::get_if<plant_models::PotentialRelayParameters>(&scenario.unit.start_aid)) {
        *relay = relay->completed(as_new);
        relay->start_capacitor_uF *= factor;
        return true;
    }
    return false;
}

std::string out_of_bounds_after_scaling(const Scenario& scenario) {
    const auto bounds = [](const auto& one) { return out_of_bounds(one); };
    std::string fault = out_of_bounds(scenario.motor);
    if (fault.empty()) {
        fault = std::visit(bounds, scenario.load);
    }
    if (fault.empty()) {
        // What a supply derives is filled in by now, also where nobody may give it.
        fault =
            std::visit([](const auto& one) { return number_out_of_bounds(one); }, scenario.source);
    }
    if (fault.empty()) {
        fault = out_of_bounds(scenario.conditions);
    }
    if (const auto* parts = parts_of(scenario.limiter); parts != nullptr && fault.empty()) {
        fault = out_of_bounds(*parts);
    }
    if (const auto* relay =
            std::get_if<plant_models::PotentialRelayParameters>(&scenario.unit.start_aid);
        relay != nullptr && fault.empty()) {
        fault = out_of_bounds(*relay);
    }
    return fault;
}

}  // namespace sim
