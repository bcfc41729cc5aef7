#include "plant_models/unit/oil_viscosity.hpp"

#include <cmath>

#include "plant_models/numeric/select.hpp"

namespace plant_models {

namespace {

/// lg lg (nu + 0.7): a straight line against lg T.
double ordinate(double kinematic_mm2_per_s) {
    return std::log10(std::log10(kinematic_mm2_per_s + 0.7));
}

double abscissa(double temperature_C) {
    return std::log10(temperature_C + 273.15);
}

}  // namespace

OilViscosity::OilViscosity(const Figures& figures) {
    // Two points make the line.
    slope_ = (ordinate(figures.at_40_C_mm2_per_s) - ordinate(figures.at_100_C_mm2_per_s)) /
             (abscissa(100.0) - abscissa(40.0));
    intercept_ = ordinate(figures.at_40_C_mm2_per_s) + slope_ * abscissa(40.0);
    // Three powers for each call of a right-hand side would cost more than the rest of it.
    const double warm = kinematic_mm2_per_s(warm_C);
    for (std::size_t k = 0; k <= hottest_entry; ++k) {
        constexpr double bend = 1.0 / (largest_drag_factor - 1.0);
        const double ratio = kinematic_mm2_per_s(coldest_C + static_cast<double>(k)) / warm;
        drag_[k] = (1.0 + bend) * ratio / (1.0 + bend * ratio);
    }
}

double OilViscosity::kinematic_mm2_per_s(double temperature_C) const {
    constexpr double hottest_C = coldest_C + static_cast<double>(hottest_entry);
    const double held_C = clamp(temperature_C, coldest_C, hottest_C);
    return std::pow(10.0, std::pow(10.0, intercept_ - slope_ * abscissa(held_C))) - 0.7;
}

double OilViscosity::drag_factor(double temperature_C) const {
    const double position =
        clamp(temperature_C - coldest_C, 0.0, static_cast<double>(hottest_entry));
    // The last entry belongs to the interval before it.
    const auto entry = static_cast<std::size_t>(position);
    const std::size_t below = entry == hottest_entry ? entry - 1 : entry;
    const double beyond = position - static_cast<double>(below);
    return drag_[below] + beyond * (drag_[below + 1] - drag_[below]);
}

double oil_drag_factor(double temperature_C) {
    static const OilViscosity oil(oil_vg_32);
    return oil.drag_factor(temperature_C);
}

}  // namespace plant_models
