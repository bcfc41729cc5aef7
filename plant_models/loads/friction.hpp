// A tighter compressor: what sticks and drags in its bearings, more or less than given.
//
// The gas, and drag that grows with speed, stay as they are.
#pragma once

#include <type_traits>
#include <variant>

#include "plant_models/loads/load_list.hpp"

namespace plant_models {

/// Multiplies the torque to break away and the constant friction.
inline void scale_friction(AnyLoadParameters& any, double factor) {
    std::visit(
        [factor](auto& load) {
            load.breakaway_torque_Nm *= factor;
            if constexpr (std::is_same_v<std::decay_t<decltype(load)>, PolynomialLoadParameters>) {
                load.constant_torque_Nm *= factor;
            } else {
                load.bearing_torque_Nm *= factor;
            }
        },
        any);
}

}  // namespace plant_models
