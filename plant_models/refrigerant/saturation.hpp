// Saturation: the pressure at which liquid and vapour of a refrigerant rest together.
//
// Valid from -45 C to 75 C, or to 1.5 K below the critical point where that comes first (R410A:
// 69.8 C); arguments beyond are held at the bound, so the functions are defined everywhere.
// R410A is a blend with a glide of 0.1 K; the dew-point pressure is used.
#pragma once

#include "plant_models/refrigerant/gas.hpp"

namespace plant_models {

/// Highest temperature at which the correlation of this gas may be used.
double highest_saturation_C(const Gas&);

/// Absolute pressure.
double saturation_pressure_kPa(const Gas&, double temperature_C);
double saturation_pressure_slope_kPa_per_K(const Gas&, double temperature_C);
/// Inverse of saturation_pressure_kPa.
double saturation_temperature_C(const Gas&, double pressure_kPa);

/// Density of suction gas, saturated or superheated: p / (Z R T), with Z = 1 - y - 1.4 y^2 and
/// y = b (T_c / T)^3.7 p / p_c; this form is this project's own fit. Meant for saturation below
/// 20 C and up to 25 K of superheat; denser gas is too far from ideal for it.
double vapour_density_kg_per_m3(const Gas&, double pressure_kPa, double temperature_C);
/// Heat of evaporation by Clausius-Clapeyron: T (v_vapour - v_liquid) dp/dT.
double evaporation_heat_J_per_kg(const Gas&, double temperature_C);

}  // namespace plant_models
