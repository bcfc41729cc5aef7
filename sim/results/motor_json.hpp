// The phasor solution of a motor as JSON, schema "runup.motor/1".
#pragma once

#include <nlohmann/json.hpp>

#include "sim/bench/motor_curves.hpp"

namespace sim {

nlohmann::ordered_json motor_json(const MotorCurves& curves);

}  // namespace sim
