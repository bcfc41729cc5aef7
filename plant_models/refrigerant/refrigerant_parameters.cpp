#include "plant_models/refrigerant/refrigerant_parameters.hpp"

#include "plant_models/refrigerant/gas.hpp"
#include "plant_models/refrigerant/saturation.hpp"

namespace plant_models {

const ParameterTable<RefrigerantParameters>& RefrigerantParameters::table() {
    using R = RefrigerantParameters;
    static const ParameterTable<R> rows = {
        {"evaporating_C", &R::evaporating_C, -45, 25, 7.2,
         "suction saturation temperature at the rating"},
        {"condensing_C", &R::condensing_C, 15, 73, 54.4,
         "discharge saturation temperature at the rating"},
        {"rated_ambient_C", &R::rated_ambient_C, 0, 60, 35.0,
         "air at the rating; the pressures at rest are its saturation pressure"},
        {"equalising_s", &R::equalising_s, 20, 3600, 150.0,
         "time in which the fully open expansion device equalises the rated pressures"},
        {"bleed_percent", &R::bleed_percent, 0.1, 100, 25.0,
         "expansion = bleed_valve: flow area that stays open at rest"},
        {"leakage_percent", &R::leakage_percent, 0, 100, 1.0,
         "expansion = tight_valve: leakage at rest, as a share of the valve's flow area"},
    };
    return rows;
}

const WordTable<RefrigerantParameters>& RefrigerantParameters::word_table() {
    using R = RefrigerantParameters;
    static const WordTable<R> rows = {
        {"gas", &R::gas, gas_words(), "R410A", "refrigerant"},
        {"expansion",
         &R::expansion,
         {"orifice", "bleed_valve", "tight_valve"},
         "orifice",
         "expansion device\n"
         "orifice: fixed, open at rest, so the pressures equalise\n"
         "bleed_valve: thermostatic, shuts at rest but for a bleed\n"
         "tight_valve: thermostatic, holds the pressures apart but for leakage"},
    };
    return rows;
}

std::string_view RefrigerantParameters::inconsistency() const {
    const Gas& filling = gas_named(gas);
    if (condensing_C > highest_saturation_C(filling)) {
        return "condensing_C must stay 1.5 K below the critical temperature of the gas (R410A: at "
               "most 69.8)";
    }
    // The same ratio that gives the capacitances in refrigerant_circuit.hpp.
    const double suction = saturation_pressure_kPa(filling, evaporating_C);
    const double discharge = saturation_pressure_kPa(filling, condensing_C);
    const double rest = saturation_pressure_kPa(filling, rated_ambient_C);
    // Beyond a tenth or ten times, one of the two volumes would be nearly rigid.
    if (rest - suction < 0.1 * (discharge - rest) || discharge - rest < 0.1 * (rest - suction)) {
        return "rated_ambient_C must lie well between evaporating_C and condensing_C: the "
               "pressure at rest is between the rated pressures";
    }
    return {};
}

}  // namespace plant_models
