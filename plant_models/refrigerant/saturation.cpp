#include "plant_models/refrigerant/saturation.hpp"

#include <algorithm>
#include <cmath>

namespace plant_models {

namespace {

constexpr double ice_point_K = 273.15;
constexpr double lowest_C = -45.0;
constexpr double highest_C = 75.0;
constexpr double distance_from_critical_K = 1.5;
constexpr double gas_constant_J_per_mol_K = 8.31446;
constexpr double pascal_per_kPa = 1000.0;

// Close to the critical point the correlation's slope is no longer that of the gas.
double valid_K(const Gas& gas, double temperature_C) {
    return ice_point_K + std::clamp(temperature_C, lowest_C, highest_saturation_C(gas));
}

/// S and -T_c dS/dT of ln(p / p_c) = T_c / T * S.
struct VapourPressureSum {
    double value;
    double slope;
};

VapourPressureSum vapour_pressure_sum(const Gas& gas, double temperature_K) {
    const double t = 1.0 - temperature_K / gas.critical_temperature_K;
    const double root = std::sqrt(t);
    const auto& a = gas.vapour_pressure;
    return {t * (a[0] + root * a[1] + t * root * a[2] + t * t * t * t * a[3]),
            a[0] + 1.5 * root * a[1] + 2.5 * t * root * a[2] + 5.0 * t * t * t * t * a[3]};
}

}  // namespace

double highest_saturation_C(const Gas& gas) {
    return std::min(highest_C, gas.critical_temperature_K - ice_point_K - distance_from_critical_K);
}

double saturation_pressure_kPa(const Gas& gas, double temperature_C) {
    const double T = valid_K(gas, temperature_C);
    return gas.critical_pressure_kPa *
           std::exp(gas.critical_temperature_K / T * vapour_pressure_sum(gas, T).value);
}

double saturation_pressure_slope_kPa_per_K(const Gas& gas, double temperature_C) {
    const double T = valid_K(gas, temperature_C);
    const VapourPressureSum sum = vapour_pressure_sum(gas, T);
    return -saturation_pressure_kPa(gas, temperature_C) / T *
           (gas.critical_temperature_K / T * sum.value + sum.slope);
}

double saturation_temperature_C(const Gas& gas, double pressure_kPa) {
    const double lowest_kPa = saturation_pressure_kPa(gas, lowest_C);
    const double highest_kPa = saturation_pressure_kPa(gas, highest_C);
    const double p = std::clamp(pressure_kPa, lowest_kPa, highest_kPa);
    // Newton's method in ln p against 1/T, which is nearly a straight line: four steps are plenty.
    double T = ice_point_K;
    for (int k = 0; k < 6; ++k) {
        const double temperature_C = T - ice_point_K;
        const double here_kPa = saturation_pressure_kPa(gas, temperature_C);
        const double slope =
            -T * T / here_kPa * saturation_pressure_slope_kPa_per_K(gas, temperature_C);
        T = valid_K(gas, 1.0 / (1.0 / T + std::log(p / here_kPa) / slope) - ice_point_K);
    }
    return T - ice_point_K;
}

double vapour_density_kg_per_m3(const Gas& gas, double pressure_kPa, double temperature_C) {
    const double T = ice_point_K + temperature_C;
    // The leading term stands for the second virial coefficient, its square for what follows.
    const double y = gas.compressibility * std::pow(gas.critical_temperature_K / T, 3.7) *
                     pressure_kPa / gas.critical_pressure_kPa;
    const double compressibility_factor = 1.0 - y - 1.4 * y * y;
    return pascal_per_kPa * pressure_kPa * 1e-3 * gas.molar_mass_g_per_mol /
           (compressibility_factor * gas_constant_J_per_mol_K * T);
}

// The liquid's volume is a few per cent of the vapour's, so one value of its density serves all.
double evaporation_heat_J_per_kg(const Gas& gas, double temperature_C) {
    const double T = valid_K(gas, temperature_C);
    const double vapour =
        vapour_density_kg_per_m3(gas, saturation_pressure_kPa(gas, temperature_C), T - ice_point_K);
    return T * (1.0 / vapour - 1.0 / gas.liquid_density_kg_per_m3) * pascal_per_kPa *
           saturation_pressure_slope_kPa_per_K(gas, temperature_C);
}

}  // namespace plant_models
