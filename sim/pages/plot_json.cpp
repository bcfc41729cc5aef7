#include "sim/pages/plot_json.hpp"

#include <cmath>
#include <nlohmann/json.hpp>
#include <utility>
#include <vector>

#include "sim/pages/packed_numbers.hpp"

namespace sim {

namespace {

std::string_view word_of(Symbol symbol) {
    switch (symbol) {
        case Symbol::none:
            return "none";
        case Symbol::circle:
            return "circle";
        case Symbol::cross:
            return "cross";
        case Symbol::square:
            return "square";
    }
    return "";
}

std::string_view word_of(Drawn drawn) {
    switch (drawn) {
        case Drawn::line:
            return "line";
        case Drawn::steps:
            return "steps";
        case Drawn::path:
            return "path";
    }
    return "";
}

struct Points {
    std::vector<double> x;
    std::vector<double> y;
};

Points finite_points(const Series& series) {
    Points points;
    for (std::size_t k = 0; k < series.x.size(); ++k) {
        if (std::isfinite(series.x[k]) && std::isfinite(series.y.at(k))) {
            points.x.push_back(series.x[k]);
            points.y.push_back(series.y[k]);
        }
    }
    return points;
}

nlohmann::ordered_json series_json(const Series& series, int x_decimals) {
    const Points points = finite_points(series);
    return {{"name", series.name},
            {"unit", series.unit},
            {"decimals", series.decimals},
            {"colour", word_of(series.colour)},
            {"dash", word_of(series.dash)},
            {"symbol", word_of(series.symbol)},
            {"drawn", word_of(series.drawn)},
            {"line", series.has_line},
            {"width", series.width_px},
            {"scale", series.axis == YAxis::left ? "y" : "right"},
            {"x", pack_numbers(points.x, x_decimals)},
            {"y", pack_numbers(points.y, series.decimals)}};
}

nlohmann::ordered_json panel_json(const Panel& panel, int x_decimals) {
    nlohmann::ordered_json words = nlohmann::ordered_json::array();
    for (const AxisWord& word : panel.words) {
        words.push_back({{"value", word.value}, {"word", word.word}});
    }
    nlohmann::ordered_json series = nlohmann::ordered_json::array();
    for (const Series& one : panel.series) {
        series.push_back(series_json(one, x_decimals));
    }
    return {{"height", panel.height_px},
            {"floor", panel.y_floor ? nlohmann::ordered_json(*panel.y_floor)
                                    : nlohmann::ordered_json(nullptr)},
            {"words", std::move(words)},
            {"series", std::move(series)}};
}

/// The text of a script element ends at "</script"; JSON may spell the letter otherwise.
std::string without_angle_brackets(const std::string& json) {
    std::string text;
    text.reserve(json.size());
    for (const char letter : json) {
        if (letter == '<') {
            text += "\\u003c";
        } else {
            text += letter;
        }
    }
    return text;
}

}  // namespace

std::string_view word_of(Colour colour) {
    switch (colour) {
        case Colour::black:
            return "black";
        case Colour::orange:
            return "orange";
        case Colour::sky_blue:
            return "sky_blue";
        case Colour::green:
            return "green";
        case Colour::blue:
            return "blue";
        case Colour::vermilion:
            return "vermilion";
        case Colour::purple:
            return "purple";
    }
    return "";
}

std::string_view word_of(Dash dash) {
    switch (dash) {
        case Dash::solid:
            return "solid";
        case Dash::dashed:
            return "dashed";
        case Dash::dotted:
            return "dotted";
    }
    return "";
}

std::string plot_json(const Plot& plot) {
    nlohmann::ordered_json panels = nlohmann::ordered_json::array();
    for (const Panel& panel : plot.panels) {
        panels.push_back(panel_json(panel, plot.x_decimals));
    }
    nlohmann::ordered_json stretch(nullptr);
    if (plot.stretch) {
        stretch = {{"from", plot.stretch->from}, {"to", plot.stretch->to}};
    }
    const nlohmann::ordered_json object{
        {"x", {{"name", plot.x_name}, {"unit", plot.x_unit}, {"decimals", plot.x_decimals}}},
        {"stretch", std::move(stretch)},
        {"panels", std::move(panels)}};
    constexpr auto replace = nlohmann::ordered_json::error_handler_t::replace;
    return without_angle_brackets(object.dump(-1, ' ', false, replace));
}

}  // namespace sim
