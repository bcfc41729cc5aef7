// What every load model offers to the plant.
//
// A load class L has:
//   static constexpr std::size_t state_count, guard_count, channel_count
//   std::array<double, state_count> initial_state() const
//   LoadTorque torque(const double* x, const LoadMotion&) const
//   double breakaway_torque_Nm(const double* x, double oil_drag_factor) const
//                                          static friction, a magnitude; never smaller than
//                                          `opposing_Nm` at speed 0
//   LoadTorque torque_and_derivatives(const double* x, double* dxdt, const LoadMotion&) const
//                                          both at once, for they share their geometry
//   void guards(const double* x, const LoadMotion&, double* values) const
//   static bool guard_is_kink(std::size_t)           as in supplies/supply_interface.hpp
//   void on_guard(std::size_t, double* x)
//   void on_standstill(double* x)                    the rotor has just come to rest, perhaps only
//                                                    to turn back
//   void rest(double* x, double duration_s)          the rotor stands: gas leaks, pressures become
//                                                    equal; only a load with states of its own
//   void continue_from(const L& before, double* x)   the same load with other numbers goes on, at
//                                                    rest, from `before` and its states `x`, which
//                                                    follow where the ambient moves the charge;
//                                                    only a load with states of its own
//   static std::array<std::string_view, channel_count> channel_names()   with units
//   std::array<double, channel_count> channels(const double* x) const
//
// A load with a crank keeps its angle as a state of its own: dangle/dt = speed, positive forwards.
// Functions that the right-hand side calls may use a template over the scalar instead of `double`.
#pragma once

namespace plant_models {

template <class Real>
struct LoadMotion {
    Real speed_rad_per_s;
    Real oil_drag_factor;  ///< drag of the oil now / drag of warm oil; 1 when heat is not modelled
};

template <class Real>
struct LoadTorque {
    Real driving_Nm;   ///< torque against positive rotation, whatever way the rotor turns (gas)
    Real opposing_Nm;  ///< a magnitude that always opposes the motion (friction)
};

}  // namespace plant_models
