// When a motor counts as one that the nameplate may belong to: every printed figure met within
// 0.5 %, every other figure inside the band of its class, every parameter within the bounds that a
// scenario accepts.
#pragma once

#include <vector>

#include "sim/fitting/motor_class.hpp"
#include "sim/fitting/motor_space.hpp"

namespace sim {

/// Largest difference from a printed figure, as a share of it.
inline constexpr double hard_tolerance = 0.005;

/// Got over asked, minus 1.
double difference(const HardFigure&, const MotorFigures&);

/// By how much a figure lies outside its band, in half-widths of the band; 0 and below: inside.
double below_band(const SoftFigure&, const MotorFigures&);
double above_band(const SoftFigure&, const MotorFigures&);
/// With room for the last digit that a rounded parameter loses: 1e-4 of the half-width.
bool inside_band(const SoftFigure&, const MotorFigures&);

bool meets_printed_figures(const MotorClass&, const MotorFigures&);
bool is_accepted(const MotorClass&, const Candidate&);

}  // namespace sim
