#include <fmt/format.h>

#include <functional>
#include <optional>
#include <utility>

#include "sim/pages/repeat_page.hpp"

namespace sim {

namespace {

using Figure = std::function<std::optional<double>(const RepeatedStart&)>;

/// A point per start that has the figure.
Series over_starts(const RepeatResult& result, std::string name, std::string unit, int decimals,
                   const Figure& figure) {
    Series series;
    series.name = std::move(name);
    series.unit = std::move(unit);
    series.decimals = decimals;
    series.symbol = Symbol::circle;
    double start_number = 0.0;
    for (const RepeatedStart& row : result.starts) {
        start_number += 1.0;
        if (const std::optional<double> value = figure(row)) {
            series.x.push_back(start_number);
            series.y.push_back(*value);
        }
    }
    return series;
}

std::optional<double> clamp_A(const RepeatedStart& row) {
    return row.start.figures.line_current_inrush_100ms_rms_A;
}

void add_if_any(Panel& panel, Series series) {
    if (!series.x.empty()) {
        panel.series.push_back(std::move(series));
    }
}

/// A panel of its own for one figure, if any start has it.
void add_panel(Plot& plot, Panel panel, Series series) {
    add_if_any(panel, std::move(series));
    if (!panel.series.empty()) {
        plot.panels.push_back(std::move(panel));
    }
}

Panel current_panel(const RepeatResult& result) {
    Panel panel;
    panel.title = "Largest current over any 100 ms, RMS";
    panel.unit = "A";
    panel.height_px = 220;
    panel.y_floor = 0.0;
    const auto up = [](const RepeatedStart& row) { return row.start.outcome == Outcome::running; };
    Series succeeded = over_starts(
        result, "clamp on the line, comes up", "A", 1,
        [up](const RepeatedStart& row) { return up(row) ? clamp_A(row) : std::nullopt; });
    succeeded.colour = Colour::blue;
    add_if_any(panel, std::move(succeeded));
    Series failed = over_starts(
        result, "clamp, does not come up", "A", 1,
        [up](const RepeatedStart& row) { return up(row) ? std::nullopt : clamp_A(row); });
    failed.colour = Colour::vermilion;
    failed.symbol = Symbol::cross;
    failed.has_line = false;
    add_if_any(panel, std::move(failed));
    if (result.has_limiter) {
        panel.series.push_back(
            over_starts(result, "the controller's own sensor", "A", 1,
                        [](const RepeatedStart& row) { return row.sensor_inrush_100ms_rms_A; }));
        panel.series.back().colour = Colour::green;
        panel.series.back().dash = Dash::dashed;
        panel.series.back().symbol = Symbol::square;
    }
    return panel;
}

}  // namespace

Plot learning_plot(const RepeatResult& result) {
    Plot plot;
    plot.title = "From start to start";
    plot.x_name = "start";
    plot.panels.push_back(current_panel(result));
    Series level = over_starts(result, "level", "%", 1, [](const RepeatedStart& row) {
        return row.memory ? std::optional<double>(0.1 * row.memory->learned_level_permille)
                          : std::nullopt;
    });
    level.colour = Colour::purple;
    add_panel(plot, {"Level of the ladder, of the one that is set", "%", "", {}, {}, {}, 150},
              std::move(level));
    Series stage = over_starts(result, "stage", "", 0, [](const RepeatedStart& row) {
        return row.stage ? std::optional<double>(*row.stage) : std::nullopt;
    });
    add_panel(plot, {"Stage in which the rotor comes up", "", "", {}, {}, {}, 120},
              std::move(stage));
    Series time = over_starts(result, "time", "s", 3, [](const RepeatedStart& row) {
        return row.start.figures.time_to_speed_s;
    });
    time.colour = Colour::orange;
    add_panel(plot, {"Time to 90 % of synchronous speed", "s", "", {}, {}, 0.0, 150},
              std::move(time));
    return plot;
}

}  // namespace sim
