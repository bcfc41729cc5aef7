// Inductance matrix of the four windings, and its inverse for every way the stator can be
// connected.
//
//        i_m          i_a             i_rm    i_ra
//   [ L_lm+L_m+L_s   L_s              L_m     0     ]  main
//   [ L_s            L_la+n^2 L_m+L_s 0       n L_m ]  auxiliary
//   [ L_m            0                L_lr+L_m 0    ]  rotor, on the main axis
//   [ 0              n L_m            0    L_lr+L_m ]  rotor, on the auxiliary axis
//
// L_s is the inductance in series with the line: it carries i_m + i_a and couples the two windings.
//
// A winding whose current is held at zero (an open thyristor pair, an open line) leaves the state:
// with B the matrix that maps the independent currents to the winding currents, the derivative of
// all four currents is  di/dt = B (B^T L B)^-1 B^T u  for winding voltages u. The 4x4 product has
// the same shape in every connection, so the right-hand side never branches on it. Rows of a held
// current are exactly zero, and in the loop the two stator rows are exactly opposite.
#pragma once

#include <array>

#include "plant_models/motor/motor_parameters.hpp"

namespace plant_models {

/// Order: main, auxiliary, rotor main axis, rotor auxiliary axis. Unit: H (or 1/H inverted).
using WindingMatrix = std::array<std::array<double, 4>, 4>;

enum class StatorConnection {
    both_on_line,
    main_on_line,       ///< the auxiliary branch is open
    auxiliary_on_line,  ///< the main branch is open
    loop,               ///< line open; main and auxiliary branch in series through the capacitor
    open,               ///< no stator current
};
inline constexpr int stator_connection_count = 5;

WindingMatrix winding_inductances(const MotorParameters& motor, double series_inductance_H);

/// The matrix that turns winding voltages into current derivatives, in 1/H.
WindingMatrix inverse_inductances(const WindingMatrix& inductances, StatorConnection connection);

}  // namespace plant_models
