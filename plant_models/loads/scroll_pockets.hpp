// Volumes of a scroll compressor's chambers against the orbit angle.
//
// Two like involute wraps, one orbiting: crescent pockets come in pairs that close at the rim,
// travel inwards and shrink linearly with the orbit angle (Morishita et al., "Scroll Compressor
// Analytical Model", Purdue 1984; recalled, not seen). One pair closes per turn:
//
//   V(phi) = V_s (1 - phi / phi_end),   phi_end = (2 N - 1) pi,   phi = angle since it closed
//   V_d    = V_s / v_r,                 phi_c = phi_end (1 - 1 / v_r)
//
//   symbol     | meaning                                                             | unit
//   V_s        | pair of pockets as it closes: the displacement per turn             | m3
//   V_d        | the same as it opens to the discharge port                          | m3
//   v_r        | built-in volume ratio                                               | -
//   N          | turns of a wrap                                                     | -
//   phi_c      | compression span, from closing to opening: one to two turns here    | rad
//   theta      | orbit angle within the turn; 0 where a pair closes                  | rad
//
// So at any theta there are: the forming pair, open to the suction, V_s theta / 2 pi; the outer
// pair, phi = theta; the inner pair, phi = theta + 2 pi, while that is below phi_c; and the central
// chamber, open to the port. That one takes V_d in when the inner pair opens and presses it out
// evenly over the next turn. (The real central chamber does so less evenly: its wrap tips are
// thickened by design, so no published shape fits all.)
#pragma once

#include "plant_models/numeric/units.hpp"

namespace plant_models {

class ScrollPockets {
  public:
    struct Figures {
        double displacement_m3;
        double volume_ratio;
        double wrap_turns;
    };
    static constexpr double turn_rad = 2.0 * pi;

    explicit ScrollPockets(const Figures& figures);

    /// phi_c as the figures give it. The class holds one between one turn and two.
    static double compression_span_rad(double volume_ratio, double wrap_turns);

    /// theta at which the inner pair opens to the port; inside (0, 2 pi).
    double opening_angle_rad() const { return opening_angle_; }
    double displacement_m3() const { return displacement_; }
    double discharge_volume_m3() const { return discharge_volume_; }
    /// -dV/dphi of a closed pair.
    double closed_shrinking_m3_per_rad() const { return closed_shrinking_; }
    /// -dV/dtheta of the central chamber.
    double central_shrinking_m3_per_rad() const { return central_shrinking_; }
    /// dV/dtheta of the forming pair.
    double forming_growth_m3_per_rad() const { return forming_growth_; }

    double forming_m3(double theta) const { return forming_growth_ * theta; }
    double outer_m3(double theta) const { return displacement_ - closed_shrinking_ * theta; }
    double inner_m3(double theta) const { return outer_m3(theta + turn_rad); }
    /// Beyond what is left in the port. `inner_open`: the inner pair has joined it in this turn.
    double central_m3(double theta, bool inner_open) const {
        const double since_opening = theta - opening_angle_ + (inner_open ? 0.0 : turn_rad);
        return discharge_volume_ - central_shrinking_ * since_opening;
    }

  private:
    double displacement_;
    double closed_shrinking_;
    double forming_growth_;
    double opening_angle_;
    double discharge_volume_;
    double central_shrinking_;
};

}  // namespace plant_models
