// The angle of a crank that has turned many times, as it is shown.
#pragma once

#include <cmath>

#include "plant_models/numeric/units.hpp"

namespace plant_models {

/// Within the present turn: 0 <= angle < 360.
inline double turn_angle_deg(double angle_rad) {
    const double turns = angle_rad / (2.0 * pi);
    return 360.0 * (turns - std::floor(turns));
}

}  // namespace plant_models
