// The refrigerants that a scenario may name, each with the few constants that the models need.
//
//   ln(p / p_c) = (T_c / T) (a1 t + a2 t^1.5 + a3 t^2.5 + a4 t^5),  t = 1 - T / T_c     (Wagner)
//
// One record per gas, listed in gas.cpp; how its numbers were found stands there.
#pragma once

#include <array>
#include <string_view>
#include <vector>

namespace plant_models {

struct Gas {
    std::string_view word;
    double molar_mass_g_per_mol;
    double critical_temperature_K;
    double critical_pressure_kPa;
    std::array<double, 4> vapour_pressure;  ///< a1 .. a4
    /// n of p V^n = constant along the real gas's isentropic compression from 7.2 to 54.4 C
    /// saturation; not the ratio of specific heats.
    double isentropic_exponent;
    double compressibility;           ///< b of the suction gas, see saturation.hpp
    double vapour_heat_J_per_kg_K;    ///< of the suction gas, between saturation and 11.1 K above
    double liquid_heat_J_per_kg_K;    ///< mean between 7.2 and 46.1 C
    double liquid_density_kg_per_m3;  ///< saturated, at 7.2 C
};

/// The words of a scenario's key `gas`, in the order of the list.
const std::vector<std::string_view>& gas_words();
/// The record of one of `gas_words`; the first one for a word that is none of them.
const Gas& gas_named(std::string_view word);

}  // namespace plant_models
