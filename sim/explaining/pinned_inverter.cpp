#include "sim/explaining/pinned_inverter.hpp"

namespace sim {

plant_models::InverterParameters pinned(const plant_models::InverterParameters& inverter) {
    const plant_models::InverterParameters full = inverter.completed();
    plant_models::InverterParameters fixed = inverter;
    fixed.bus_voltage_V = full.bus_voltage_V;
    fixed.bus_minimum_V = full.bus_minimum_V;
    fixed.bus_capacitance_uF = full.bus_capacitance_uF;
    fixed.refill_power_W = full.refill_power_W;
    fixed.rated_current_A = full.rated_current_A;
    if (inverter.limits_by_voltage()) {
        fixed.limited_current_A = full.limited_current_A;
    }
    if (inverter.limiting_method == "virtual_impedance") {
        fixed.virtual_threshold_A = full.virtual_threshold_A;
    }
    if (inverter.overload_law == "inverse_time") {
        fixed.surge_power_W = full.surge_power_W;
        fixed.surge_time_s = full.surge_time_s;
    }
    if (inverter.has_battery()) {
        fixed.battery_resistance_mohm = full.battery_resistance_mohm;
        fixed.battery_minimum_V = full.battery_minimum_V;
        fixed.battery_protection_A = full.battery_protection_A;
        fixed.battery_short_circuit_A = full.battery_short_circuit_A;
    }
    return fixed;
}

plant_models::TransformerInverterParameters pinned(
    const plant_models::TransformerInverterParameters& inverter) {
    return inverter.completed();
}

}  // namespace sim
