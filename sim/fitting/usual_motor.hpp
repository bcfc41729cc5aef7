// Finds the one motor that a nameplate is fitted with: among all that meet the printed figures and
// keep the bands of their class, the one nearest to the middle of the bands and to the usual
// values. Where no motor keeps every band, the printed figures come first.
//
// The nameplate decides two or three of eleven unknowns; "the most ordinary of those it allows" is
// this project's way to choose, and what else it allows is in open_ranges.hpp.
#pragma once

#include <vector>

#include "sim/fitting/motor_class.hpp"
#include "sim/fitting/motor_space.hpp"

namespace sim {

struct UsualMotor {
    Candidate candidate;  ///< parameters rounded to five digits, figures of the rounded ones
    std::vector<double> place;
};

/// The printed figures may be missed if nothing meets them: look with meets_printed_figures.
UsualMotor find_usual_motor(const MotorSpace&, const MotorClass&);

}  // namespace sim
