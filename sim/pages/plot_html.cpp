#include "sim/pages/plot_html.hpp"

#include <fmt/format.h>

#include "sim/pages/html_text.hpp"
#include "sim/pages/plot_json.hpp"

namespace sim {

namespace {

std::string button(std::string_view action, std::string_view label, std::string_view spoken) {
    return fmt::format("<button type=\"button\" data-do=\"{}\" aria-label=\"{}\">{}</button>\n",
                       action, html_text(spoken), html_text(label));
}

std::string controls(const Plot& plot) {
    std::string text = "<div class=\"controls\" hidden>\n";
    text += button("whole", "Whole", "Show the whole");
    if (plot.stretch) {
        text += button("stretch", plot.stretch->button, plot.stretch->button);
    }
    text += button("out", "−", "Zoom out");
    text += button("in", "+", "Zoom in");
    text += button("left", "◀", "Cursor left");
    text += button("right", "▶", "Cursor right");
    return text + "<p class=\"at\">Point at a plot, or use the arrow keys</p>\n</div>\n";
}

std::string_view dash_pattern(Dash dash) {
    switch (dash) {
        case Dash::solid:
            return "";
        case Dash::dashed:
            return " stroke-dasharray=\"7 4\"";
        case Dash::dotted:
            return " stroke-dasharray=\"2 3\"";
    }
    return "";
}

std::string_view symbol_shape(Symbol symbol) {
    switch (symbol) {
        case Symbol::none:
            return "";
        case Symbol::circle:
            return "<circle cx=\"15\" cy=\"6\" r=\"4\"/>";
        case Symbol::cross:
            return "<path d=\"M11 2l8 8M11 10l8-8\"/>";
        case Symbol::square:
            return "<rect x=\"11\" y=\"2\" width=\"8\" height=\"8\"/>";
    }
    return "";
}

std::string legend_entry(const Series& series) {
    const std::string line = series.has_line
                                 ? fmt::format("<path d=\"M0 6h30\"{}/>", dash_pattern(series.dash))
                                 : std::string();
    return fmt::format(
        "<li><svg viewBox=\"0 0 30 12\" class=\"{}\" stroke-width=\"2\" "
        "aria-hidden=\"true\">{}{}</svg>{} <span class=\"value\"></span></li>\n",
        word_of(series.colour), line, symbol_shape(series.symbol), html_text(series.name));
}

std::string figure(const Panel& panel) {
    const std::string unit = panel.unit.empty() ? "" : ", " + panel.unit;
    const std::string right = panel.right_unit.empty() ? "" : "; right: " + panel.right_unit;
    std::string text =
        fmt::format("<figure class=\"panel\">\n<figcaption><b>{}</b>\n<ul class=\"legend\">\n",
                    html_text(panel.title + unit + right));
    for (const Series& series : panel.series) {
        text += legend_entry(series);
    }
    return text + "</ul></figcaption>\n<div class=\"drawing\"></div>\n</figure>\n";
}

}  // namespace

std::string plot_html(const Plot& plot) {
    std::string text = "<div class=\"plot\">\n<h2>" + html_text(plot.title) + "</h2>\n";
    text += controls(plot);
    text += "<p class=\"spoken\" aria-live=\"polite\"></p>\n";
    text += fmt::format(
        "<div class=\"panels\" tabindex=\"0\" role=\"group\" aria-label=\"{}: arrow keys move the "
        "cursor, with shift far; plus and minus zoom; 0 shows the whole\">\n",
        html_text(plot.title));
    for (const Panel& panel : plot.panels) {
        text += figure(panel);
    }
    text +=
        "</div>\n<noscript><p>Without scripts the plots stay empty; the numbers are in the "
        "tables.</p></noscript>\n";
    return text + "<script type=\"application/json\">" + plot_json(plot) + "</script>\n</div>\n";
}

}  // namespace sim
