#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "plant_models/numeric/units.hpp"
#include "sim/bench/motor_curves.hpp"
#include "sim/pages/start_page.hpp"

namespace sim {

namespace {

/// Of synchronous speed: not wider than a line in a picture.
constexpr double stands_below = 0.01;

Series over_speed(std::string name, const std::vector<double>& speed_rpm,
                  const std::vector<double>& torque_Nm, Colour colour) {
    Series series;
    series.name = std::move(name);
    series.unit = "N m";
    series.decimals = 2;
    series.x = speed_rpm;
    series.y = torque_Nm;
    series.colour = colour;
    return series;
}

Series steady_curve(std::string name, const std::vector<plant_models::SteadyState>& curve,
                    Colour colour) {
    std::vector<double> speed_rpm;
    std::vector<double> torque_Nm;
    for (const plant_models::SteadyState& row : curve) {
        speed_rpm.push_back(plant_models::rad_per_s_to_rpm(row.speed_rad_per_s));
        torque_Nm.push_back(row.torque_Nm);
    }
    return over_speed(std::move(name), speed_rpm, torque_Nm, colour);
}

}  // namespace

Plot torque_speed_plot(const RecordedStart& start) {
    Plot plot;
    plot.title = "Torque over speed";
    plot.x_name = "speed";
    plot.x_unit = "r/min";
    const CycleMeans& cycles = start.waves.cycles;
    Panel panel;
    panel.title = "Torque";
    panel.unit = "N m";
    panel.height_px = 320;
    const MotorCurves curves = motor_curves(start.scenario, {});
    panel.series.push_back(steady_curve(
        fmt::format("motor, {:g} V, run capacitor", curves.voltage_V), curves.curve, Colour::blue));
    const auto helped = curve_with_start_capacitor(start.scenario);
    if (!helped.empty()) {
        panel.series.push_back(steady_curve("motor, start capacitor in", helped, Colour::green));
        panel.series.back().dash = Dash::dashed;
    }
    Series load =
        over_speed("load in this run", cycles.speed_rpm, cycles.load_torque_Nm, Colour::vermilion);
    load.dash = Dash::dotted;
    load.width_px = 2.0;
    load.drawn = Drawn::path;
    // Of a rotor that stands, the path is a point.
    const bool stands =
        std::all_of(cycles.speed_rpm.begin(), cycles.speed_rpm.end(), [&](double speed_rpm) {
            return std::abs(speed_rpm) < stands_below * start.result.synchronous_speed_rpm;
        });
    load.symbol = stands ? Symbol::square : Symbol::none;
    panel.series.push_back(load);
    Series path = over_speed("the rotor's path", cycles.speed_rpm, cycles.torque_Nm, Colour::black);
    path.drawn = Drawn::path;
    path.symbol = Symbol::circle;
    panel.series.push_back(path);
    panel.y_floor = 0.0;
    plot.panels.push_back(std::move(panel));
    return plot;
}

}  // namespace sim
