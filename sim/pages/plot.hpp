// What a page is to draw, as data: panels above each other on one horizontal axis, with one cursor
// and one zoom for all of them.
//
// Each series has points of its own, so a channel may be coarse where another is fine. Numbers are
// kept as whole multiples of 10^-decimals: give as many decimals as mean something. A point that is
// not finite is left out.
//
// Meaning is never in the colour alone: a series has a dash pattern and a symbol beside it, and is
// named in the panel's legend.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace sim {

/// Places in a palette that eyes with colour deficiency tell apart; see page.css.
enum class Colour { black, orange, sky_blue, green, blue, vermilion, purple };
enum class Dash { solid, dashed, dotted };
enum class Symbol { none, circle, cross, square };
enum class Drawn {
    line,   ///< from point to point; x never falls
    steps,  ///< each value lasts until the next point; x never falls
    path    ///< from point to point in their order, wherever x goes
};
enum class YAxis { left, right };

struct Series {
    std::string name;
    std::string unit;  ///< empty: a plain number
    std::vector<double> x;
    std::vector<double> y;  ///< as many as x
    int decimals = 0;       ///< of y
    Colour colour = Colour::black;
    Dash dash = Dash::solid;
    Symbol symbol = Symbol::none;
    Drawn drawn = Drawn::line;
    bool has_line = true;  ///< false: only its symbols
    double width_px = 1.5;
    YAxis axis = YAxis::left;
};

/// A value of the left axis that has a word of its own.
struct AxisWord {
    double value = 0.0;
    std::string word;
};

struct Panel {
    std::string title;
    std::string unit;        ///< of the left axis
    std::string right_unit;  ///< of the right axis, if a series uses it
    std::vector<Series> series;
    std::vector<AxisWord> words;    ///< instead of numbers at the left axis and in the readout
    std::optional<double> y_floor;  ///< the axis reaches at least down to it
    int height_px = 150;
};

struct Plot {
    std::string title;
    std::string x_name;
    std::string x_unit;
    int x_decimals = 0;
    /// A stretch of x that a button shows.
    struct Stretch {
        std::string button;
        double from = 0.0;
        double to = 0.0;
    };
    std::optional<Stretch> stretch;
    std::vector<Panel> panels;
};

}  // namespace sim
