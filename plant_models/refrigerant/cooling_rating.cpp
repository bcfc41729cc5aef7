#include "plant_models/refrigerant/cooling_rating.hpp"

#include <algorithm>
#include <cmath>

#include "plant_models/refrigerant/saturation.hpp"

namespace plant_models {

double displacement_cm3(const Gas& gas, const CoolingRating& rating) {
    const double liquid_C = rating.condensing_C - liquid_subcooling_K;
    // From subcooled liquid to superheated suction gas; the expansion itself takes no heat.
    const double cold_J_per_kg = evaporation_heat_J_per_kg(gas, rating.evaporating_C) +
                                 gas.vapour_heat_J_per_kg_K * suction_superheat_K -
                                 gas.liquid_heat_J_per_kg_K * (liquid_C - rating.evaporating_C);
    const double density =
        vapour_density_kg_per_m3(gas, saturation_pressure_kPa(gas, rating.evaporating_C),
                                 rating.evaporating_C + suction_superheat_K);
    // The compressor has to move that much gas, whatever its speed.
    const double m3_per_s = rating.capacity_W / (cold_J_per_kg * density);
    return 1e6 * m3_per_s / (rating.speed_rpm / 60.0);
}

double volumetric_efficiency(const Gas& gas, double clearance_share, double suction_kPa,
                             double discharge_kPa) {
    const double expansion = std::pow(discharge_kPa / suction_kPa, 1.0 / gas.isentropic_exponent);
    return std::max(0.0, 1.0 + clearance_share * (1.0 - expansion));
}

double isentropic_work_J(const Gas& gas, double volume_m3, double suction_kPa,
                         double discharge_kPa) {
    const double n = gas.isentropic_exponent;
    const double ratio = discharge_kPa / suction_kPa;
    return n / (n - 1.0) * 1e3 * suction_kPa * volume_m3 * (std::pow(ratio, (n - 1.0) / n) - 1.0);
}

}  // namespace plant_models
