#include "sim/pages/histogram_html.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/pages/html_text.hpp"

namespace sim {

namespace {

// In units of the drawing, about one pixel each.
constexpr double drawing_width = 300.0;
constexpr double drawing_height = 90.0;
constexpr double gap = 1.0;

std::int64_t tallest(const Histogram& histogram) {
    std::int64_t most = 1;
    for (const Histogram::Bar& bar : histogram.bars) {
        most = std::max(most, bar.below + bar.above);
    }
    return most;
}

/// Nothing at all for no starts; of very few at least a line that can be seen.
double height_of(std::int64_t count, std::int64_t most) {
    constexpr double least = 1.5;
    return count == 0 ? 0.0
                      : std::max(least, drawing_height * static_cast<double>(count) /
                                            static_cast<double>(most));
}

std::string bar_svg(const char* kind, double x, double bottom, double width, double height) {
    return height <= 0.0 ? ""
                         : fmt::format(
                               "<rect class=\"{}\" x=\"{:.1f}\" y=\"{:.1f}\" "
                               "width=\"{:.1f}\" height=\"{:.1f}\"/>",
                               kind, x, bottom - height, width, height);
}

std::string drawing(const Histogram& histogram) {
    const std::int64_t most = tallest(histogram);
    const double pitch = drawing_width / static_cast<double>(histogram.bars.size());
    std::string text = fmt::format("<svg viewBox=\"0 0 {:.0f} {:.0f}\" aria-hidden=\"true\">",
                                   drawing_width, drawing_height);
    double x = 0.0;
    for (const Histogram::Bar& bar : histogram.bars) {
        const double below = height_of(bar.below, most);
        const double width = std::max(gap, pitch - gap);
        text += bar_svg("below", x, drawing_height, width, below);
        text += bar_svg("above", x, drawing_height - below, width, height_of(bar.above, most));
        x += pitch;
    }
    return text + "</svg>\n";
}

std::string histogram_html(const Histogram& histogram) {
    const double to = histogram.from + histogram.width * static_cast<double>(histogram.bars.size());
    return fmt::format(
        "<figure class=\"histogram\">\n<figcaption><b>{}</b></figcaption>\n{}"
        "<p class=\"axis\"><span>{:.4g}</span> <span>{}</span></p>\n<p>{}</p>\n</figure>\n",
        html_text(histogram.title), drawing(histogram), histogram.from,
        histogram.width > 0.0 ? fmt::format("{:.4g}", to) : "", html_text(histogram.words));
}

std::string key(const char* kind, const std::string& name) {
    return fmt::format(
        "<li><svg viewBox=\"0 0 30 12\" aria-hidden=\"true\"><rect class=\"{}\" x=\"3\" y=\"0\" "
        "width=\"24\" height=\"12\"/></svg>{}</li>\n",
        kind, html_text(name));
}

}  // namespace

std::string histograms_html(const Histograms& histograms) {
    std::string text = "<div class=\"histograms\">\n<ul class=\"legend\">\n" +
                       key("below", histograms.below_name) + key("above", histograms.above_name) +
                       "</ul>\n<div class=\"grid\">\n";
    for (const Histogram& one : histograms.histograms) {
        text += histogram_html(one);
    }
    return text + "</div>\n</div>\n";
}

}  // namespace sim
