// What an installer adds to the controller's settings when it is wired to a motor.
#pragma once

#include "firmware/settings/settings.hpp"
#include "plant_models/motor/motor_parameters.hpp"

namespace sim {

/// With the rated voltage of the motor's plate, unless the settings give one, and without a run
/// capacitor where the motor has none.
firmware::Settings as_installed(firmware::Settings settings,
                                const plant_models::MotorParameters& motor);

}  // namespace sim
