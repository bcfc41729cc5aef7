// The space that the fit searches: a point of the unit cube is one motor of the nameplate's class.
//
// Each side of the cube is one Unknown of the class on a logarithmic scale, in the order main
// resistance, main leakage, rotor resistance, rotor leakage ratio, magnetizing, turns ratio,
// auxiliary resistance ratio, auxiliary leakage ratio, slip, iron share, mechanical share.
//
//   base = rated voltage / rated-load current          (unit of the impedances)
//   r_m, X_lm, r_r, X_m = base x side                  X_lr = X_lm x side
//   r_a = n^2 r_m x side                               X_la = n^2 X_lm x side
//   iron, friction + windage = expected losses x side  (losses: input less shaft at usual values)
//
// Ratios keep a motor plausible wherever the search goes; ohms would not.
#pragma once

#include <cstddef>
#include <vector>

#include "plant_models/motor/motor_parameters.hpp"
#include "sim/fitting/motor_class.hpp"
#include "sim/fitting/nameplate.hpp"

namespace sim {

/// One motor with its figures.
struct Candidate {
    plant_models::MotorParameters motor;
    OperatingPoint point;
    MotorFigures figures;
};

class MotorSpace {
  public:
    MotorSpace(const Nameplate& plate, const MotorClass& of);

    std::size_t dimension() const { return sides_.size(); }
    /// The class's usual values.
    std::vector<double> usual() const;
    Candidate at(const double* place) const;

  private:
    std::vector<Unknown> sides_;
    plant_models::MotorParameters frame_;  ///< what is known: ratings, capacitor, inertia
    OperatingPoint point_;
    double base_ohm_;
    double losses_W_;
};

/// A motor and its operating point, and their figures.
Candidate with_figures(const plant_models::MotorParameters& motor, const OperatingPoint& point);

}  // namespace sim
