#include "plant_models/loads/scroll_parameters.hpp"

#include "plant_models/loads/scroll_pockets.hpp"

namespace plant_models {

const ParameterTable<ScrollParameters>& ScrollParameters::table() {
    using S = ScrollParameters;
    static const ParameterTable<S> rows = {
        {"displacement_cm3", &S::displacement_cm3, 1, 500, {}, "volume taken in per turn"},
        {"volume_ratio", &S::volume_ratio, 1.5, 6, 2.6,
         "built in: a pocket as it closes / as it opens to the discharge"},
        {"wrap_turns", &S::wrap_turns, 1.5, 8, 2.75, "turns of a wrap"},
        {"plenum_volume_cm3", &S::plenum_volume_cm3, 0, 5000, 0.0,
         "between discharge port and check valve; 0: the same as displacement_cm3"},
        {"settling_s", &S::settling_s, 0.2, 60, 1.0,
         "at rest, time in which pockets and plenum lose at least 95 % of their pressure above the "
         "suction's"},
        {"leakage_percent", &S::leakage_percent, 0, 20, 2.0,
         "running: of the rated mass flow, back across each of the seals"},
        {"crank_angle_deg", &S::crank_angle_deg, -360, 360, 0.0,
         "angle at which the crank rests; 0 is where a pair of pockets closes"},
        {"breakaway_torque_Nm",
         &S::breakaway_torque_Nm,
         0,
         100,
         {},
         "static friction with warm oil; bearing_torque_Nm if that is larger"},
        {"bearing_torque_Nm", &S::bearing_torque_Nm, 0, 100, {}, "friction at any speed"},
        {"oil_torque_Nm",
         &S::oil_torque_Nm,
         0,
         100,
         {},
         "drag of warm oil at the reference speed, in proportion to speed"},
        {"reference_speed_rpm",
         &S::reference_speed_rpm,
         100,
         10000,
         {},
         "speed at the rating, of the oil drag and of the refrigerant flow"},
    };
    return rows;
}

const WordTable<ScrollParameters>& ScrollParameters::word_table() {
    static const WordTable<ScrollParameters> rows = {
        {"check_valve",
         &ScrollParameters::check_valve,
         {"fitted", "none"},
         "fitted",
         "keeps the discharge side from flowing back through the resting compressor\n"
         "fitted: behind the plenum\n"
         "none: what the discharge side holds can drive the scroll backwards"},
    };
    return rows;
}

std::string_view ScrollParameters::inconsistency() const {
    const double span = ScrollPockets::compression_span_rad(volume_ratio, wrap_turns);
    if (span < ScrollPockets::turn_rad || span > 2.0 * ScrollPockets::turn_rad) {
        return "wrap_turns and volume_ratio must give a compression of one to two turns, "
               "(wrap_turns - 0.5) x (1 - 1 / volume_ratio)";
    }
    if (plenum_m3() < 0.25e-6 * displacement_cm3) {
        return "plenum_volume_cm3 must be 0 or at least a quarter of displacement_cm3";
    }
    // A larger one would settle faster than its own pockets can follow.
    if (plenum_m3() > 30e-6 * displacement_cm3) {
        return "plenum_volume_cm3 must be at most 30 x displacement_cm3";
    }
    return {};
}

}  // namespace plant_models
