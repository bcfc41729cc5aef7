#include "plant_models/motor/swapped_windings.hpp"

#include <utility>

namespace plant_models {

MotorParameters with_swapped_windings(const MotorParameters& motor) {
    const double square = motor.turns_ratio * motor.turns_ratio;
    MotorParameters swapped = motor;
    std::swap(swapped.main_resistance_ohm, swapped.aux_resistance_ohm);
    std::swap(swapped.main_leakage_reactance_ohm, swapped.aux_leakage_reactance_ohm);
    swapped.turns_ratio = -1.0 / motor.turns_ratio;
    swapped.magnetizing_reactance_ohm = square * motor.magnetizing_reactance_ohm;
    swapped.rotor_resistance_ohm = square * motor.rotor_resistance_ohm;
    swapped.rotor_leakage_reactance_ohm = square * motor.rotor_leakage_reactance_ohm;
    return swapped;
}

}  // namespace plant_models
