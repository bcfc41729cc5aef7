#include <algorithm>
#include <optional>
#include <utility>

#include "sim/pages/controller_panel.hpp"
#include "sim/pages/start_page.hpp"

namespace sim {

namespace {

/// How long a start that did not come up is looked at, and what is shown after one that did.
constexpr double failed_start_s = 2.0;
constexpr double after_start_s = 0.2;

Series line(std::string name, std::string unit, int decimals, const Trace& trace, Colour colour) {
    Series series;
    series.name = std::move(name);
    series.unit = std::move(unit);
    series.decimals = decimals;
    series.x = trace.time_s;
    series.y = trace.value;
    series.colour = colour;
    return series;
}

/// A mean or an RMS that is drawn over the wave it is of.
Series bold(Series series) {
    series.dash = Dash::dashed;
    series.width_px = 2.5;
    return series;
}

Series thin(Series series) {
    series.width_px = 1.0;
    return series;
}

Plot over_time(std::string title) {
    Plot plot;
    plot.title = std::move(title);
    plot.x_name = "time";
    plot.x_unit = "s";
    plot.x_decimals = 4;
    return plot;
}

/// None where the rotor turned from the beginning.
std::optional<Plot::Stretch> the_start(const RecordedStart& start) {
    const double from_s = start.scenario.run.call_on_s;
    const StartFigures& figures = start.result.figures;
    double to_s = from_s + failed_start_s;
    if (figures.time_to_speed_s) {
        if (*figures.time_to_speed_s <= from_s) {
            return std::nullopt;
        }
        to_s = std::max(*figures.time_to_speed_s, figures.handover_s.value_or(0.0)) + after_start_s;
    }
    return Plot::Stretch{"Start only", from_s, std::min(to_s, start.scenario.run.duration_s)};
}

Trace cycle_trace(const CycleMeans& cycles, const std::vector<double>& values) {
    return {cycles.time_s, values};
}

}  // namespace

Plot waveform_plot(const RecordedStart& start, std::string title) {
    const Waveforms& waves = start.waves;
    Plot plot = over_time(std::move(title));
    plot.stretch = the_start(start);
    plot.panels.push_back(
        {"Line voltage",
         "V",
         "",
         {thin(line("voltage", "V", 1, waves.line_voltage_V, Colour::sky_blue)),
          bold(line("half-cycle RMS", "V", 1, waves.line_voltage_rms_V, Colour::black))},
         {},
         {},
         170});
    plot.panels.push_back(
        {"Line current",
         "A",
         "",
         {thin(line("current", "A", 2, waves.line_current_A, Colour::sky_blue)),
          bold(line("half-cycle RMS", "A", 2, waves.line_current_rms_A, Colour::black))},
         {},
         {},
         190});
    Series aux = line("auxiliary winding", "A", 2, waves.aux_current_A, Colour::green);
    aux.dash = Dash::dashed;
    plot.panels.push_back(
        {"Winding currents",
         "A",
         "",
         {thin(line("main winding", "A", 2, waves.main_current_A, Colour::vermilion)), thin(aux)},
         {},
         {},
         170});
    Series load = line("load and friction", "N m", 2, waves.load_torque_Nm, Colour::vermilion);
    load.dash = Dash::dotted;
    load.width_px = 2.0;
    plot.panels.push_back(
        {"Torque",
         "N m",
         "",
         {thin(line("motor", "N m", 2, waves.torque_Nm, Colour::sky_blue)),
          bold(line("motor, mean of a cycle", "N m", 2,
                    cycle_trace(waves.cycles, waves.cycles.torque_Nm), Colour::black)),
          load},
         {},
         {},
         190});
    Trace ninety_percent;
    ninety_percent.time_s = {0.0, start.scenario.run.duration_s};
    ninety_percent.value.assign(2, 0.9 * start.result.synchronous_speed_rpm);
    Series up_to_speed = line("90 % of synchronous", "r/min", 0, ninety_percent, Colour::vermilion);
    up_to_speed.dash = Dash::dotted;
    plot.panels.push_back({"Speed",
                           "r/min",
                           "",
                           {line("rotor", "r/min", 0, waves.speed_rpm, Colour::blue), up_to_speed},
                           {},
                           0.0,
                           150});
    if (start.result.has_limiter) {
        plot.panels.push_back(controller_panel(start.result, start.scenario.run.duration_s));
    }
    if (!waves.dc_name.empty()) {
        plot.panels.push_back({waves.dc_name,
                               "V",
                               "",
                               {line(waves.dc_name, "V", 1, waves.dc_V, Colour::purple)},
                               {},
                               {},
                               130});
    }
    return plot;
}

Plot comparison_plot(const NamedStart& one, const NamedStart& other) {
    Plot plot = over_time("Side by side: " + one.name + ", " + other.name);
    plot.stretch = the_start(*one.start);
    const auto both = [&](std::string title, std::string unit, int decimals,
                          Trace Waveforms::*trace, int height_px) {
        Series first = line(one.name, unit, decimals, one.start->waves.*trace, Colour::blue);
        Series second =
            line(other.name, unit, decimals, other.start->waves.*trace, Colour::vermilion);
        first.width_px = 2.0;
        second.width_px = 2.0;
        second.dash = Dash::dashed;
        plot.panels.push_back(
            {std::move(title), std::move(unit), "", {first, second}, {}, 0.0, height_px});
    };
    both("Line current, half-cycle RMS", "A", 1, &Waveforms::line_current_rms_A, 170);
    both("Line voltage, half-cycle RMS", "V", 1, &Waveforms::line_voltage_rms_V, 150);
    both("Speed", "r/min", 0, &Waveforms::speed_rpm, 150);
    return plot;
}

}  // namespace sim
