#include "sim/suites/spread_inputs.hpp"

#include <algorithm>

#include "plant_models/loads/friction.hpp"
#include "sim/scenario/part_scaling.hpp"

namespace sim {

namespace {

using plant_models::MotorParameters;

template <bool (*scale)(plant_models::AnySupplyParameters&, double)>
bool on_source(Scenario& scenario, const MotorParameters& /*as_new*/, double value) {
    return scale(scenario.source, value);
}

bool set_call_phase(Scenario& scenario, const MotorParameters& /*as_new*/, double value) {
    set_phase(scenario.source, value);
    return true;
}

bool set_ambient(Scenario& scenario, const MotorParameters& /*as_new*/, double value) {
    scenario.conditions.ambient_C = value;
    return true;
}

bool set_rest(Scenario& scenario, const MotorParameters& /*as_new*/, double value) {
    scenario.conditions.rest_s = value;
    return true;
}

bool on_run_capacitor(Scenario& scenario, const MotorParameters& /*as_new*/, double value) {
    return scale_run_capacitor(scenario.motor, value);
}

bool on_start_capacitor(Scenario& scenario, const MotorParameters& as_new, double value) {
    return scale_start_capacitor(scenario, as_new, value);
}

bool on_windings(Scenario& scenario, const MotorParameters& /*as_new*/, double value) {
    scale_winding_resistance(scenario.motor, value);
    return true;
}

bool on_rotor(Scenario& scenario, const MotorParameters& /*as_new*/, double value) {
    scenario.motor.rotor_resistance_ohm *= value;
    return true;
}

bool on_friction(Scenario& scenario, const MotorParameters& /*as_new*/, double value) {
    scenario.motor.friction_loss_W *= value;
    plant_models::scale_friction(scenario.load, value);
    return true;
}

}  // namespace

// Bounds: far beyond what tolerance, weather or wear do (engineering judgement); a case whose parts
// leave the bounds of their tables is refused all the same.
const std::vector<SpreadInput>& spread_inputs() {
    static const std::vector<SpreadInput> inputs = {
        {"line_voltage_factor", 0.5, 1.3, true,
         "of the source's voltage; only of a grid or a split phase, others hold their own",
         on_source<scale_line_voltage>},
        {"source_impedance_factor", 0.1, 10, true,
         "of the resistance and inductance of a grid or of a split phase",
         on_source<scale_source_impedance>},
        {"supply_power_factor", 0.2, 2, true, "of an inverter's limits, or of an engine's power",
         on_source<scale_supply_power>},
        {"battery_voltage_factor", 0.7, 1.2, true, "of the battery's voltage, of an inverter",
         on_source<scale_battery_voltage>},
        {"battery_resistance_factor", 0.2, 10, true, "of the battery's resistance",
         on_source<scale_battery_resistance>},
        {"phase_deg", -360, 360, false,
         "of the mains wave as the run begins, with the call unless [run] call_on_s is later",
         set_call_phase},
        {"ambient_C", -40, 60, false, "air around the unit", set_ambient},
        {"rest_s", 0, 1e6, false, "since the unit last ran", set_rest},
        {"run_capacitor_factor", 0.1, 2, true, "of the motor's run_capacitor_uF", on_run_capacitor},
        {"start_capacitor_factor", 0.1, 2, true,
         "of the start capacitor of a limiter or of a potential relay", on_start_capacitor},
        {"winding_resistance_factor", 0.5, 2, true,
         "of both stator windings; copper gains 0.39 % for each kelvin", on_windings},
        {"rotor_resistance_factor", 0.5, 2, true, "of the rotor's cage", on_rotor},
        {"friction_factor", 0.1, 10, true,
         "of the bearings: the motor's friction loss, the load's breakaway and constant torque",
         on_friction},
    };
    return inputs;
}

const SpreadInput* spread_input_named(std::string_view name) {
    const std::vector<SpreadInput>& all = spread_inputs();
    const auto found = std::find_if(all.begin(), all.end(),
                                    [name](const SpreadInput& one) { return one.name == name; });
    return found == all.end() ? nullptr : &*found;
}

}  // namespace sim
