// A compressor's own friction: bearings and seals, and the oil between them.
//
//   at rest    T_b = max(breakaway x g, T_0)          g = 1 + 0.25 (drag factor - 1)
//   turning    T   = T_0 + T_oil |speed / reference| x drag factor
//
//   symbol | field              | unit
//   -      | breakaway_torque_Nm | N m   largest torque of friction that the resting shaft
//   withstands T_0    | bearing_torque_Nm   | N m   boundary friction, at any speed T_oil  |
//   oil_torque_Nm       | N m   viscous drag of warm oil at the reference speed
//
// The drag factor is oil viscosity now / warm (LoadMotion::oil_drag_factor). That static friction
// rises with a quarter of the drag's rise (thick oil squeezed out of the bearings, not sheared) is
// engineering judgement.
#pragma once

#include <algorithm>
#include <cmath>

#include "plant_models/loads/load_interface.hpp"

namespace plant_models {

class BearingFriction {
  public:
    struct Figures {
        double breakaway_Nm;
        double bearing_Nm;
        double oil_Nm;
        double reference_speed_rad_per_s;
    };
    static constexpr double breakaway_share_of_drag_rise = 0.25;

    explicit BearingFriction(const Figures& figures)
        : breakaway_Nm_(figures.breakaway_Nm),
          bearing_Nm_(figures.bearing_Nm),
          oil_Nm_s_(figures.oil_Nm / figures.reference_speed_rad_per_s) {}

    /// Magnitude of the torque that opposes the motion.
    double opposing_Nm(const LoadMotion<double>& motion) const {
        return bearing_Nm_ + oil_Nm_s_ * std::abs(motion.speed_rad_per_s) * motion.oil_drag_factor;
    }
    double breakaway_torque_Nm(double oil_drag_factor) const {
        const double rise = 1.0 + breakaway_share_of_drag_rise * (oil_drag_factor - 1.0);
        return std::max(breakaway_Nm_ * rise, bearing_Nm_);
    }

  private:
    double breakaway_Nm_;
    double bearing_Nm_;
    double oil_Nm_s_;
};

}  // namespace plant_models
