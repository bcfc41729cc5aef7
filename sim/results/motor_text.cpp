#include "sim/results/motor_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <complex>

#include "plant_models/numeric/units.hpp"

namespace sim {

namespace {

constexpr double bar_width = 24.0;

std::string bar(double torque_Nm, double largest_Nm) {
    const double share = largest_Nm > 0.0 ? std::max(0.0, torque_Nm / largest_Nm) : 0.0;
    std::string blocks;
    for (long k = 0; k < std::lround(share * bar_width); ++k) {
        blocks += "█";
    }
    return blocks;
}

}  // namespace

std::string motor_text(const MotorCurves& curves) {
    const plant_models::SteadyState& locked = curves.locked_rotor;
    std::string text = fmt::format(
        "{}\n\n  at {:.0f} V, {:.0f} Hz, on the run capacitor, in steady state\n"
        "  locked rotor: {:.1f} A, power factor {:.2f}, {:.2f} N m\n\n",
        curves.title, curves.voltage_V, curves.frequency_Hz, std::abs(locked.line_current_A),
        locked.power_factor, locked.torque_Nm);
    text += fmt::format("  {:>7} {:>8} {:>9} {:>8} {:>8} {:>8} {:>6} {:>9} {:>7}\n", "slip",
                        "r/min", "torque", "line A", "main A", "aux A", "pf", "shaft W", "eff %");
    double largest_Nm = 0.0;
    for (const plant_models::SteadyState& row : curves.curve) {
        largest_Nm = std::max(largest_Nm, row.torque_Nm);
    }
    for (const plant_models::SteadyState& row : curves.curve) {
        const std::string efficiency =
            row.efficiency ? fmt::format("{:.1f}", 100.0 * *row.efficiency) : "-";
        text += fmt::format(
            "  {:>7.4f} {:>8.0f} {:>6.2f} Nm {:>8.2f} {:>8.2f} {:>8.2f} {:>6.3f} {:>9.0f} {:>7} "
            "{}\n",
            row.slip, plant_models::rad_per_s_to_rpm(row.speed_rad_per_s), row.torque_Nm,
            std::abs(row.line_current_A), std::abs(row.main_current_A), std::abs(row.aux_current_A),
            row.power_factor, row.shaft_power_W, efficiency, bar(row.torque_Nm, largest_Nm));
    }
    return text;
}

}  // namespace sim
