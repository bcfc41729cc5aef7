// Motors of textbooks, and the invented ones that other tools have solved too.
//
// Each function names its source and how sure we are of the numbers:
//   seen      read in the document or in a public re-run of its example
//   memory    recalled, not seen
//   invented  made up for this project; not a publication
#pragma once

#include "plant_models/loads/polynomial.hpp"
#include "plant_models/motor/motor_parameters.hpp"
#include "plant_models/supplies/grid.hpp"

namespace published {

/// Permanent-split-capacitor motor, 230 V 60 Hz, 2 poles, about 3.5 kW, 35 uF.
/// A. E. Fitzgerald, C. Kingsley, S. D. Umans, "Electric Machinery", 6th ed., Example 9.5, p. 483
/// (seen, as a public re-run; the print may round differently). The book gives inductances; here
/// is their exact equivalent with the rotor leakage moved to the stator.
/// The core loss of 105 W is left at 0: the book adds it to the input power only.
/// The rotational loss of 40 W is taken as bearing friction at the example's 3500 r/min.
plant_models::MotorParameters permanent_capacitor_motor();

/// 1/4 hp, 110 V 60 Hz, 4 poles, with an auxiliary winding that has no capacitor of its own.
/// Main winding and rotor: same book, Example 9.2, p. 467 (seen).
/// Auxiliary winding (7.14 + j3.22 ohm, ratio 1.18) and inertia: P. C. Krause, O. Wasynczuk,
/// S. D. Sudhoff, "Analysis of Electric Machinery", unsymmetrical two-phase machine (memory).
plant_models::MotorParameters quarter_horsepower_motor();

/// The project's reference compressor motor, 230 V 60 Hz, 2 poles, 40 uF (invented).
plant_models::MotorParameters reference_motor();
plant_models::GridParameters reference_grid();
plant_models::PolynomialLoadParameters reference_load();

/// A 50 Hz compressor motor, 230 V, 4 poles, 30 uF, with every loss that a motor may have, whose
/// load needs more torque to break away than to keep moving (invented).
plant_models::MotorParameters second_motor();
plant_models::GridParameters second_grid();
plant_models::PolynomialLoadParameters second_load();

}  // namespace published
