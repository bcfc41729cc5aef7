// A load for a fitted motor: what it turns at rated load, and how hard it is to set going.
//
// The load is of kind "polynomial": it takes the rated torque at the rated speed, of which a share
// is there from the first turn and the rest grows with the square of the speed, as pressures do
// while a compressor runs up from equal ones. Starting torque at equal pressures is 10 to 25 % of
// the rated torque (recalled); 20 % for a reciprocating compressor, 15 % for a rolling piston,
// 10 % for a scroll are engineering judgement.
//
// Displacement, from the cooling capacity at 7.2 / 54.4 C and 3500 r/min: 10.7 cm3 per revolution
// and ton for R410A, 15.2 for R22 with an ideal cycle (computed); a volumetric efficiency of 0.9
// is engineering judgement.
#pragma once

#include <optional>

#include "plant_models/loads/polynomial.hpp"
#include "sim/fitting/motor_figures.hpp"
#include "sim/fitting/nameplate.hpp"

namespace sim {

/// Share of the rated torque that holds the resting shaft. Without a kind of compressor, the
/// hardest to start counts.
double breakaway_share(const Nameplate&);

plant_models::PolynomialLoadParameters load_estimate(const Nameplate&, const MotorFigures&);

/// None unless the nameplate gives compressor, cooling capacity, and a gas of the two above.
std::optional<double> displacement_cm3(const Nameplate&, const MotorFigures&);

}  // namespace sim
