// Parts that are a little more or less than given: what tolerance, weather and wear do to a
// scenario. Each returns false, and changes nothing, where the scenario has no such part.
//
// What an inverter, a generator or a relay derives is derived from it as it is sold, before it is
// scaled.
#pragma once

#include <string>

#include "sim/scenario/scenario.hpp"

namespace sim {

/// Of a grid or a split phase; others hold their own voltage.
bool scale_line_voltage(plant_models::AnySupplyParameters& source, double factor);
/// Resistance and inductance of a grid or of the conductors of a split phase.
bool scale_source_impedance(plant_models::AnySupplyParameters& source, double factor);
/// Every limit of an inverter's current and power, or an engine's power.
bool scale_supply_power(plant_models::AnySupplyParameters& source, double factor);
/// Of an inverter with a battery.
bool scale_battery_voltage(plant_models::AnySupplyParameters& source, double factor);
bool scale_battery_resistance(plant_models::AnySupplyParameters& source, double factor);
/// Of the supply's wave as the contactor closes.
void set_phase(plant_models::AnySupplyParameters& source, double phase_deg);

bool scale_run_capacitor(plant_models::MotorParameters& motor, double factor);
/// Main and auxiliary winding.
void scale_winding_resistance(plant_models::MotorParameters& motor, double factor);
/// Of a limiter or of a potential relay; that was chosen for the motor `as_new`.
bool scale_start_capacitor(Scenario& scenario, const plant_models::MotorParameters& as_new,
                           double factor);

/// Which of the tables that these may change is out of its bounds, and how; empty if none.
std::string out_of_bounds_after_scaling(const Scenario& scenario);

}  // namespace sim
