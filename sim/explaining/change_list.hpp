// The list of what is tried. Adding a change: a function in the file of its subject that returns
// it, or nothing where it does not apply; its declaration here; its name in change_list.cpp.
#pragma once

#include <vector>

#include "sim/explaining/change.hpp"

namespace sim {

using Changes = std::vector<Change>;

/// What might bring a start up that fails, the customary first. Every boldest value is one that the
/// bench can run.
Changes remedies_for(const Scenario& scenario);

/// What might keep a start from coming up that succeeds.
Changes strains_for(const Scenario& scenario);

// ---- supply_changes.cpp
Changes stiffer_line(const Scenario& scenario);
Changes weaker_line(const Scenario& scenario);
Changes higher_line_voltage(const Scenario& scenario);
Changes lower_line_voltage(const Scenario& scenario);
Changes without_sag(const Scenario& scenario);
Changes longer_sag(const Scenario& scenario);
Changes larger_generator(const Scenario& scenario);
Changes smaller_generator(const Scenario& scenario);

// ---- inverter_changes.cpp
Changes higher_current_limit(const Scenario& scenario);
Changes lower_current_limit(const Scenario& scenario);
Changes longer_overload_time(const Scenario& scenario);
Changes more_bus_storage(const Scenario& scenario);
Changes less_bus_storage(const Scenario& scenario);
Changes more_refill_power(const Scenario& scenario);
Changes less_refill_power(const Scenario& scenario);
Changes larger_inverter(const Scenario& scenario);
Changes smaller_inverter(const Scenario& scenario);

// ---- battery_changes.cpp
Changes larger_battery(const Scenario& scenario);
Changes smaller_battery(const Scenario& scenario);
Changes fuller_battery(const Scenario& scenario);
Changes emptier_battery(const Scenario& scenario);

// ---- cable_changes.cpp
Changes shorter_cable(const Scenario& scenario);
Changes longer_cable(const Scenario& scenario);
Changes thicker_cable(const Scenario& scenario);

// ---- condition_changes.cpp
Changes longer_rest(const Scenario& scenario);
Changes shorter_rest(const Scenario& scenario);
Changes cooler_day(const Scenario& scenario);
Changes warmer_day(const Scenario& scenario);
Changes hotter_day(const Scenario& scenario);
Changes colder_day(const Scenario& scenario);
Changes warmer_oil(const Scenario& scenario);

// ---- unit_changes.cpp
Changes fresh_run_capacitor(const Scenario& scenario);
Changes larger_run_capacitor(const Scenario& scenario);
Changes smaller_run_capacitor(const Scenario& scenario);
Changes aged_run_capacitor(const Scenario& scenario);
Changes steadier_contactor(const Scenario& scenario);
Changes module_set_lower(const Scenario& scenario);
Changes tighter_compressor(const Scenario& scenario);

// ---- start_aid_changes.cpp
Changes capacitor_and_relay(const Scenario& scenario);
Changes thermistor_across_run_capacitor(const Scenario& scenario);
Changes larger_relay_capacitor(const Scenario& scenario);

// ---- limiter_changes.cpp
Changes fit_a_limiter(const Scenario& scenario);
Changes larger_start_capacitor(const Scenario& scenario);
Changes smaller_start_capacitor(const Scenario& scenario);
Changes bolder_ladder(const Scenario& scenario);
Changes gentler_ladder(const Scenario& scenario);
Changes start_directly(const Scenario& scenario);

// ---- fault_changes.cpp
Changes without_each_fault(const Scenario& scenario);

}  // namespace sim
