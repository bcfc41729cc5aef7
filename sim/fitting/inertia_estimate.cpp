#include "sim/fitting/inertia_estimate.hpp"

#include "plant_models/numeric/units.hpp"

namespace sim {

InertiaEstimate inertia_estimate(const Nameplate& plate) {
    constexpr double inertia_constant_s = 0.04;
    const double synchronous_rad_per_s =
        4.0 * plant_models::pi * plate.frequency_Hz / plate.pole_count();
    const double usual = 2.0 * inertia_constant_s * plate.rated_apparent_VA() /
                         (synchronous_rad_per_s * synchronous_rad_per_s);
    return {0.6 * usual, usual, 1.6 * usual};
}

}  // namespace sim
