// The scenario's table [refrigerant]: what fills the unit, and the conditions it is rated at.
//
//   symbol | field            | meaning
//   p_s0   | evaporating_C    | suction saturation at the rating
//   p_d0   | condensing_C     | discharge saturation at the rating
//   p_r0   | rated_ambient_C  | p_sat there: what both sides come to after a long rest
//   t_e    | equalising_s     | fully open expansion device, from the rated pressures to equal ones
//
// Words of `expansion`:
//   orifice       fixed orifice or capillary: open at rest, so the pressures equalise
//   bleed_valve   thermostatic valve that shuts at rest but for a bleed of `bleed_percent`
//   tight_valve   thermostatic valve that shuts; only leakage of `leakage_percent` remains, mostly
//                 through the compressor's own valves
//
// Defaults: 7.2 / 54.4 / 35 C is the high-temperature rating point of compressor data sheets;
// equalising time, bleed and leakage are engineering judgement (an orifice equalises within the 3
// to 5 minutes that a unit is made to rest; a bleed in ten; a tight valve not within hours).
#pragma once

#include <string_view>

#include "plant_models/parameter_table.hpp"

namespace plant_models {

struct RefrigerantParameters {
    static constexpr std::string_view kind = "refrigerant";

    std::string_view gas = "R410A";
    std::string_view expansion = "orifice";
    double evaporating_C = 7.2;
    double condensing_C = 54.4;
    double rated_ambient_C = 35.0;
    double equalising_s = 150.0;
    double bleed_percent = 25.0;   ///< of the flow area while running
    double leakage_percent = 1.0;  ///< of the flow area while running

    static const ParameterTable<RefrigerantParameters>& table();
    static const WordTable<RefrigerantParameters>& word_table();
    /// One sentence that says what is wrong between fields that are each in bounds; empty if none.
    std::string_view inconsistency() const;
};

}  // namespace plant_models
