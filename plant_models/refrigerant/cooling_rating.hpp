// From the cooling capacity of a nameplate to the displacement of its compressor.
//
//   q   = h_fg(T_e) + c_v 11.1 K - c_l (T_c - 8.3 K - T_e)          useful cold per kg
//   V_d = (capacity / q) / (rho_s speed / 60)                       no clearance, no leakage
//   W   = n / (n - 1) p_s V (r^((n-1)/n) - 1)                       isentropic work per revolution
//
// Suction gas 11.1 K above saturation and liquid 8.3 K below it, as compressor data sheets rate
// (7.2 / 54.4 C with return gas at 18.3 C and liquid at 46.1 C; recalled, not seen). The liquid's
// specific heat is a mean: within 1 % of the equations of state at 7.2 / 54.4 C, within 5 % when
// evaporating at -23 C.
#pragma once

#include "plant_models/refrigerant/gas.hpp"

namespace plant_models {

/// Superheat of the suction gas at the compressor.
inline constexpr double suction_superheat_K = 11.1;
/// Subcooling of the liquid before the expansion device.
inline constexpr double liquid_subcooling_K = 8.3;

struct CoolingRating {
    double capacity_W;
    double evaporating_C;
    double condensing_C;
    double speed_rpm;
};

/// Ideal displacement per revolution.
double displacement_cm3(const Gas&, const CoolingRating&);

/// Fresh gas per displacement, 1 + c - c r^(1/n): what re-expands from the clearance takes its
/// room. At a pressure ratio too high for the clearance it is 0.
double volumetric_efficiency(const Gas&, double clearance_share, double suction_kPa,
                             double discharge_kPa);

/// Isentropic work on `volume_m3` of suction gas, from drawing it in to pushing it out.
double isentropic_work_J(const Gas&, double volume_m3, double suction_kPa, double discharge_kPa);

}  // namespace plant_models
