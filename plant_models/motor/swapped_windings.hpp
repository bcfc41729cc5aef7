// The same motor with its two stator windings exchanged: what was wired to S is on R, and the other
// way round. C stays.
//
// In the equations of motor_equations.hpp the winding on R is always "main", and the rotor is
// referred to it. With primes for the motor as it is wired now:
//
//   r_m' = r_a    L_lm' = L_la    n' = -1/n    L_m' = n^2 L_m    (r_r, L_lr)' = n^2 (r_r, L_lr)
//   r_a' = r_m    L_la' = L_lm    i_rm' = i_ra / n               i_ra' = -i_rm / n
//
// Each equation of the original follows from the primed ones. The axis of the new auxiliary winding
// lies a quarter turn behind that of the new main one, hence the sign of n': with a leading current
// in it the torque is negative, and the rotor turns backwards. Speed and torque keep their sense.
#pragma once

#include "plant_models/motor/motor_parameters.hpp"

namespace plant_models {

MotorParameters with_swapped_windings(const MotorParameters& motor);

}  // namespace plant_models
