#include "sim/results/repeat_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "sim/results/cautions.hpp"
#include "sim/results/repeat_words.hpp"
#include "sim/results/wrapped_text.hpp"

namespace sim {

namespace {

constexpr int bar_width = 20;

std::string number(const std::optional<double>& value, int decimals) {
    return value ? fmt::format("{:.{}f}", *value, decimals) : "-";
}

std::string bar(const std::optional<double>& value, double full_scale) {
    if (!value || full_scale <= 0.0) {
        return "";
    }
    const auto blocks = static_cast<int>(std::lround(bar_width * *value / full_scale));
    std::string text;
    for (int k = 0; k < std::max(blocks, 1); ++k) {
        text += "█";
    }
    return text;
}

double largest_inrush_A(const RepeatResult& result) {
    double largest = 0.0;
    for (const RepeatedStart& row : result.starts) {
        largest =
            std::max(largest, row.start.figures.line_current_inrush_100ms_rms_A.value_or(0.0));
    }
    return largest;
}

/// The bar may be of wide characters: its blanks are counted here.
std::string padded_bar(const std::optional<double>& value, double full_scale) {
    const std::string text = bar(value, full_scale);
    constexpr std::size_t bytes_per_block = 3;
    return text + std::string(bar_width - text.size() / bytes_per_block, ' ');
}

std::string line(const RepeatedStart& row, int start_number, double full_scale) {
    const StartFigures& figures = row.start.figures;
    const std::optional<double>& inrush = figures.line_current_inrush_100ms_rms_A;
    return fmt::format("  {:>4}  {:>7}  {} {:>7}  {:>7}  {:>6.1f}  {:>6}  {:>5}  {}\n",
                       start_number, number(inrush, 1), padded_bar(inrush, full_scale),
                       number(row.sensor_inrush_100ms_rms_A, 1), number(figures.time_to_speed_s, 3),
                       figures.line_current_peak_A,
                       number(figures.line_voltage_half_cycle_rms_min_V, 1),
                       row.stage ? fmt::format("{}", *row.stage) : "-", start_remark(row));
}

}  // namespace

std::string repeat_verdict(const RepeatResult& result) {
    const std::optional<int> settled = settled_after(result);
    return fmt::format("{}: {}{}{}\n", result.scenario, repeat_counts(result),
                       settled ? fmt::format(", settled from start {} on", *settled) : "",
                       result.as_expected() ? "" : ", not as expected");
}

std::string repeat_text(const RepeatResult& result) {
    std::string text = fmt::format("{}\n\n", result.title);
    text += wrapped("  ", "  ", repeat_sentence(result)) + "\n";
    for (const std::string& warning : result.warnings) {
        text += wrapped("  Beware: ", "    ", warning + ".");
    }
    text += fmt::format("  {:>4}  {:>7}  {:<{}} {:>7}  {:>7}  {:>6}  {:>6}\n", "", "clamp", "",
                        bar_width, "own", "time to", "peak", "lowest");
    text += fmt::format("  {:>4}  {:>7}  {:<{}} {:>7}  {:>7}  {:>6}  {:>6}  {:>5}\n", "no.",
                        "100ms A", "", bar_width, "100ms A", "90 % s", "A", "line V", "stage");
    const double full_scale = largest_inrush_A(result);
    int start_number = 0;
    for (const RepeatedStart& row : result.starts) {
        if (!row.changed.empty()) {
            text += fmt::format("        changed: {}\n", row.changed);
        }
        text += line(row, ++start_number, full_scale);
    }
    text += "\n";
    for (const std::string& sentence : repeat_conclusions(result)) {
        text += wrapped("  ", "  ", sentence);
    }
    return text +
           "  own: the current through the controller's output, as its sensor shows it.\n\n" +
           cautions;
}

}  // namespace sim
