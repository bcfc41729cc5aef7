// Which start capacitors a practitioner would take for a motor.
#pragma once

#include <vector>

#include "plant_models/motor/motor_parameters.hpp"
#include "sim/explaining/change.hpp"

namespace sim {

/// The customary one first. With a run capacitor: 3, 2, 4 and 5 times it (common practice: 2 to 5
/// times). Without: the size that makes the most torque per ampere with the rotor locked, its half
/// and its double (X_C = X_a + R_a R_m / (Z_m + R_m), textbooks on split-phase motors; recalled).
std::vector<double> start_capacitor_sizes_uF(const plant_models::MotorParameters& motor);

/// The change that fits a start aid with a start capacitor of one of these sizes; how one is fitted
/// is left to the caller.
Change fit_start_capacitor(const char* name, const char* what, const Scenario& scenario);

}  // namespace sim
