#include "sim/bench/motor_curves.hpp"

#include <algorithm>
#include <variant>

namespace sim {

namespace {
/// From rest to synchronous speed in steps of 2.5 %.
constexpr int curve_points = 41;

/// What the motor is rated for, with nothing in series.
plant_models::SinusoidalSupply rated_supply(const plant_models::MotorParameters& motor) {
    return {motor.rated_voltage_V, motor.rated_frequency_Hz, 0.0, 0.0};
}
}  // namespace

MotorCurves motor_curves(const Scenario& scenario, const std::vector<double>& extra_slips) {
    using plant_models::SteadyState;
    const plant_models::MotorParameters& motor = scenario.motor;
    const plant_models::SinusoidalSupply supply = rated_supply(motor);
    const plant_models::AuxiliaryConnection auxiliary = plant_models::run_connection(motor);
    MotorCurves result;
    result.scenario = scenario.name;
    result.title = scenario.title;
    result.voltage_V = supply.voltage_V;
    result.frequency_Hz = supply.frequency_Hz;
    result.locked_rotor = plant_models::locked_rotor(motor, supply, auxiliary);
    result.curve = plant_models::torque_speed_curve(motor, supply, auxiliary, curve_points);
    for (const double slip : extra_slips) {
        const bool there = std::any_of(result.curve.begin(), result.curve.end(),
                                       [slip](const SteadyState& row) { return row.slip == slip; });
        if (!there) {
            result.curve.push_back(plant_models::steady_state(motor, supply, auxiliary, slip));
        }
    }
    std::stable_sort(
        result.curve.begin(), result.curve.end(),
        [](const SteadyState& one, const SteadyState& other) { return one.slip > other.slip; });
    return result;
}

std::vector<plant_models::SteadyState> curve_with_start_capacitor(const Scenario& scenario) {
    const auto* limiter = parts_of(scenario.limiter);
    if (limiter == nullptr || limiter->start_capacitor_uF <= 0.0) {
        return {};
    }
    plant_models::AuxiliaryConnection auxiliary = plant_models::run_connection(scenario.motor);
    auxiliary.start = plant_models::CapacitorBranch{limiter->start_capacitor_uF,
                                                    limiter->start_capacitor_esr_ohm};
    return plant_models::torque_speed_curve(scenario.motor, rated_supply(scenario.motor), auxiliary,
                                            curve_points);
}

}  // namespace sim
