// Volume behind the contact of a rolling piston, and its slope; equations in
// rolling_piston.hpp.
#pragma once

#include <cmath>

#include "plant_models/numeric/units.hpp"

namespace plant_models {

class RollingPistonShape {
  public:
    /// `radius_ratio`: piston / cylinder, below 1.
    explicit RollingPistonShape(double radius_ratio)
        : a_(radius_ratio),
          e_(1.0 - radius_ratio),
          per_displacement_(1.0 / (2.0 * pi * (1.0 - radius_ratio * radius_ratio))) {}

    struct Behind {
        double share;  ///< b, of the displacement
        double slope;  ///< b', per radian
    };
    /// At the contact's angle from the vane, which may lie a little outside of
    /// one turn.
    Behind behind(double angle_rad) const {
        return behind(angle_rad, std::sin(angle_rad), std::cos(angle_rad));
    }
    Behind behind(double angle_rad, double sine, double cosine) const {
        const double lean = e_ * sine;
        const double root = std::sqrt(a_ * a_ - lean * lean);
        const double reach = e_ * cosine + root;
        const double f = (1.0 - a_ * a_) * angle_rad - e_ * e_ * sine * cosine -
                         a_ * a_ * std::asin(lean / a_) - lean * root;
        return {f * per_displacement_, (1.0 - reach * reach) * per_displacement_};
    }

  private:
    double a_;
    double e_;
    double per_displacement_;
};

}  // namespace plant_models
