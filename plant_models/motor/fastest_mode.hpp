// How fast a motor's own currents can change: what bounds an integrator's step.
//
//   decay     sum over the windings of r_k m_kk, m = inverse of the inductance matrix; no current
//             decays faster (the trace of R M bounds its largest eigenvalue)
//   swing     sqrt(m_aa / C): the auxiliary winding's transient inductance against the run
//   capacitor
//
// m as in winding_inductances.hpp, with both stator windings on the line.
#pragma once

#include "plant_models/motor/motor_parameters.hpp"
#include "plant_models/wiring/series_impedance.hpp"

namespace plant_models {

/// The larger of the two, in 1/s. `line`: all that is in series with the motor.
double fastest_mode_per_s(const MotorParameters& motor, const SeriesImpedance& line);

}  // namespace plant_models
