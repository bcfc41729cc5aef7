// How far a Runge-Kutta step may reach into the fastest mode of what it integrates.
#pragma once

namespace plant_models {

/// Of a time constant, or in radians of an oscillation. 2.8 is where the classical method becomes
/// unstable.
inline constexpr double step_share = 0.7;

}  // namespace plant_models
