// Load "polynomial": T = constant + square * (speed / reference)^2, always against the motion,
// in both directions; at rest it holds the rotor until the torque exceeds the breakaway torque.
//
// A stand-in for a fan, a pump or a compressor whose torque within one turn does not matter.
//
//   symbol | field                 | unit
//   T_b    | breakaway_torque_Nm   | N m    largest torque that the resting shaft withstands;
//   static
//          |                       |        friction is never the smaller, so at least T_0 counts
//   T_0    | constant_torque_Nm    | N m
//   T_2    | square_torque_Nm      | N m    at the reference speed
//   w_ref  | reference_speed_rpm   | r/min
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <string_view>

#include "plant_models/loads/load_interface.hpp"
#include "plant_models/numeric/units.hpp"
#include "plant_models/parameter_table.hpp"

namespace plant_models {

struct PolynomialLoadParameters {
    static constexpr std::string_view kind = "polynomial";

    double breakaway_torque_Nm = 0.0;
    double constant_torque_Nm = 0.0;
    double square_torque_Nm = 0.0;
    double reference_speed_rpm = 0.0;

    static const ParameterTable<PolynomialLoadParameters>& table();
    /// One sentence that says what is wrong between fields that are each in bounds; empty if none.
    std::string_view inconsistency() const { return {}; }
};

/// The model; its members are described in load_interface.hpp.
class PolynomialLoad {
  public:
    using Parameters = PolynomialLoadParameters;
    static constexpr std::size_t state_count = 0;
    static constexpr std::size_t guard_count = 0;
    static constexpr std::size_t channel_count = 0;

    explicit PolynomialLoad(const PolynomialLoadParameters& load)
        : breakaway_Nm_(std::max(load.breakaway_torque_Nm, load.constant_torque_Nm)),
          constant_Nm_(load.constant_torque_Nm),
          square_Nm_s2_(load.square_torque_Nm / (rpm_to_rad_per_s(load.reference_speed_rpm) *
                                                 rpm_to_rad_per_s(load.reference_speed_rpm))) {}

    std::array<double, 0> initial_state() const { return {}; }
    template <class Real>
    LoadTorque<Real> torque(const Real* /*x*/, const LoadMotion<Real>& motion) const {
        return {Real(0.0),
                constant_Nm_ + square_Nm_s2_ * motion.speed_rad_per_s * motion.speed_rad_per_s};
    }
    double breakaway_torque_Nm(const double* /*x*/, double /*oil_drag_factor*/) const {
        return breakaway_Nm_;
    }
    template <class Real>
    LoadTorque<Real> torque_and_derivatives(const Real* x, Real* /*dxdt*/,
                                            const LoadMotion<Real>& motion) const {
        return torque(x, motion);
    }
    static std::array<std::string_view, 0> channel_names() { return {}; }

  private:
    double breakaway_Nm_;
    double constant_Nm_;
    double square_Nm_s2_;
};

}  // namespace plant_models
