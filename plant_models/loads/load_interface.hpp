// What every load model offers to the plant.
//
// A load class L has:
//   using Parameters                                 with `kind`, `table()`, `inconsistency()`
//   static constexpr std::size_t state_count
//   std::array<double, state_count> initial_state() const
//   LoadTorque torque(const Real* x, Real speed) const
//   double breakaway_torque_Nm(const double* x) const    static friction, a magnitude; never
//                                                        smaller than `opposing_Nm` at speed 0
//   void derivatives(const Real* x, Real* dxdt, Real speed) const
#pragma once

namespace plant_models {

template <class Real>
struct LoadTorque {
    Real driving_Nm;   ///< torque against positive rotation, whatever way the rotor turns (gas)
    Real opposing_Nm;  ///< a magnitude that always opposes the motion (friction)
};

}  // namespace plant_models
