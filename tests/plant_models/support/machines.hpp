// Machines, limiters and supplies that the tests of the plant share.
#pragma once

#include "plant_models/loads/polynomial.hpp"
#include "plant_models/motor/motor_parameters.hpp"
#include "plant_models/parameter_defaults.hpp"
#include "plant_models/supplies/grid.hpp"
#include "plant_models/supplies/inverter.hpp"
#include "plant_models/switches/limiter_parameters.hpp"

namespace support {

/// Two poles, 230 V 60 Hz, no losses but copper.
plant_models::MotorParameters two_pole_motor();
/// Four poles, 230 V 50 Hz, with every loss that the model knows.
plant_models::MotorParameters lossy_motor();

plant_models::GridParameters ideal_grid(double voltage_V, double frequency_Hz);
/// With resistance, inductance and a phase.
plant_models::GridParameters weak_grid();
/// 230 V 60 Hz, clamps at 60 A.
plant_models::InverterParameters small_inverter();
plant_models::PolynomialLoadParameters fan();

using plant_models::table_defaults;

}  // namespace support
