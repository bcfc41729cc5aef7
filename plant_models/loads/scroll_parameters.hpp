// The scenario's table [load] for kind = "scroll".
//
//   symbol | field                | unit
//   V_s    | displacement_cm3     | cm3 per turn, both pockets of a pair
//   v_r    | volume_ratio         | -     built in
//   N      | wrap_turns           | -
//   V_p    | plenum_volume_cm3    | cm3   between discharge port and check valve; 0: as V_s
//   t_r    | settling_s           | s     at rest, until at least 95 % of the difference is gone
//   l      | leakage_percent      | %     of the rated mass flow, back across each seal
//   theta  | crank_angle_deg      | deg   initial value; 0 is where a pair of pockets closes
//   rest   | bearing_friction.hpp; reference_speed_rpm is that of the refrigerant's rating, too
//
// Words of `check_valve`:
//   fitted   behind the plenum: the discharge side cannot flow back
//   none     the discharge side is open to the port both ways
//
// Defaults: v_r, N, V_p, t_r and l are engineering judgement (air-conditioning scrolls have
// built-in ratios of 2.3 to 2.8 and two and a half to three turns). Friction and displacement have
// none: they go with the size of the machine.
#pragma once

#include <string_view>

#include "plant_models/parameter_table.hpp"

namespace plant_models {

struct ScrollParameters {
    static constexpr std::string_view kind = "scroll";

    double displacement_cm3 = 0.0;
    double volume_ratio = 2.6;
    double wrap_turns = 2.75;
    double plenum_volume_cm3 = 0.0;
    double settling_s = 1.0;
    double leakage_percent = 2.0;
    double crank_angle_deg = 0.0;
    double breakaway_torque_Nm = 0.0;
    double bearing_torque_Nm = 0.0;
    double oil_torque_Nm = 0.0;
    double reference_speed_rpm = 0.0;
    std::string_view check_valve = "fitted";

    double plenum_m3() const {
        return 1e-6 * (plenum_volume_cm3 > 0.0 ? plenum_volume_cm3 : displacement_cm3);
    }

    static const ParameterTable<ScrollParameters>& table();
    static const WordTable<ScrollParameters>& word_table();
    /// One sentence that says what is wrong between fields that are each in bounds; empty if none.
    std::string_view inconsistency() const;
};

}  // namespace plant_models
