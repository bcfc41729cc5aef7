// The exact answer of a first-order lag to a target that moves along a straight line:
//
//   tau dx/dt = target(t) - x,   target(t) from `target_begin` to `target_end` in `duration_s`
#pragma once

#include <cmath>

namespace plant_models {

inline double relaxed(double value, double target_begin, double target_end, double time_constant_s,
                      double duration_s) {
    if (duration_s <= 0.0) {
        return value;
    }
    // Once settled it follows the line this far behind it.
    const double behind = (target_end - target_begin) / duration_s * time_constant_s;
    return target_end - behind +
           (value - target_begin + behind) * std::exp(-duration_s / time_constant_s);
}

/// Towards a target that stays.
inline double relaxed(double value, double target, double time_constant_s, double duration_s) {
    return target + (value - target) * std::exp(-duration_s / time_constant_s);
}

}  // namespace plant_models
