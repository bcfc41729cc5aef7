// The phasor solution of a motor as a table with a bar per row, for people.
#pragma once

#include <string>

#include "sim/bench/motor_curves.hpp"

namespace sim {

std::string motor_text(const MotorCurves& curves);

}  // namespace sim
