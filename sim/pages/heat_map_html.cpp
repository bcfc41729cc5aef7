#include "sim/pages/heat_map_html.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/pages/html_text.hpp"

namespace sim {

namespace {

struct Scale {
    double from = 0.0;
    double to = 0.0;
    Deepest deepest = Deepest::highest;

    int step(double value) const {
        if (!(to > from)) {
            return 0;
        }
        const double share = (value - from) / (to - from);
        const double depth = deepest == Deepest::highest ? share : 1.0 - share;
        return std::clamp(static_cast<int>(std::floor(heat_steps * depth)), 0, heat_steps - 1);
    }
    /// Where the colour of `step` begins, seen from the pale end.
    double edge(int step) const {
        const double depth = static_cast<double>(step) / heat_steps;
        return deepest == Deepest::highest ? from + depth * (to - from) : to - depth * (to - from);
    }
};

Scale scale_of(const HeatMap& map) {
    Scale scale;
    scale.deepest = map.deepest;
    bool first = true;
    for (const std::vector<HeatCell>& row : map.cells) {
        for (const HeatCell& cell : row) {
            if (cell.value) {
                scale.from = first ? *cell.value : std::min(scale.from, *cell.value);
                scale.to = first ? *cell.value : std::max(scale.to, *cell.value);
                first = false;
            }
        }
    }
    scale.from = map.scale_from.value_or(scale.from);
    scale.to = map.scale_to.value_or(scale.to);
    return scale;
}

/// Names are words joined by underscores; a narrow column breaks behind them.
std::string breakable(const std::string& name) {
    std::string text;
    for (const char letter : html_text(name)) {
        text += letter;
        text += letter == '_' ? "<wbr>" : "";
    }
    return text;
}

std::string cell_html(const HeatCell& cell, const Scale& scale) {
    if (!cell.value) {
        return "<td>-</td>";
    }
    const std::string detail =
        cell.detail.empty() ? "" : "<small>" + html_text(cell.detail) + "</small>";
    return fmt::format("<td class=\"heat-{}\"><b>{}</b>{}</td>", scale.step(*cell.value),
                       html_text(cell.text), detail);
}

std::string scale_html(const Scale& scale, const std::string& unit) {
    if (!(scale.to > scale.from)) {
        return "";
    }
    std::string text = "<ol class=\"heat-scale\" aria-label=\"Scale of the colours\">\n";
    for (int step = 0; step < heat_steps; ++step) {
        text += fmt::format("<li class=\"heat-{}\">{:.3g}</li>\n", step, scale.edge(step));
    }
    return text + fmt::format("<li>{:.3g} {}, the worst</li>\n</ol>\n", scale.edge(heat_steps),
                              html_text(unit));
}

}  // namespace

std::string heat_map_html(const HeatMap& map) {
    const Scale scale = scale_of(map);
    std::string text = fmt::format(
        "<div class=\"table heat\" tabindex=\"0\" role=\"region\" aria-label=\"{}\"><table>\n"
        "<caption><span>{}</span></caption>\n<thead><tr><th scope=\"col\">{} \\ {}</th>",
        html_text(map.caption), html_text(map.caption), html_text(map.row_name),
        html_text(map.column_name));
    for (const std::string& column : map.columns) {
        text += "<th scope=\"col\">" + breakable(column) + "</th>";
    }
    text += "</tr></thead>\n<tbody>\n";
    for (std::size_t row = 0; row < map.rows.size(); ++row) {
        text += "<tr><th scope=\"row\">" + breakable(map.rows[row]) + "</th>";
        for (const HeatCell& cell : map.cells[row]) {
            text += cell_html(cell, scale);
        }
        text += "</tr>\n";
    }
    return text + "</tbody></table></div>\n" + scale_html(scale, map.unit);
}

}  // namespace sim
