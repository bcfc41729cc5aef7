#include "sim/results/start_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/results/cautions.hpp"
#include "sim/results/spaced_word.hpp"
#include "sim/results/start_words.hpp"
#include "sim/results/text_chart.hpp"
#include "sim/results/wrapped_text.hpp"

namespace sim {

namespace {

constexpr int label_width = 25;
constexpr int column_width = 27;
constexpr int chart_width = 24;

/// One row of the page: a label and a cell per result.
template <class Cell>
std::string row(const char* label, const std::vector<StartResult>& results, Cell cell) {
    std::string line = fmt::format("  {:<{}}", label, label_width);
    for (const StartResult& result : results) {
        line += fmt::format("{:<{}}", std::string(cell(result)), column_width);
    }
    return line.erase(line.find_last_not_of(' ') + 1) + "\n";
}

template <class Pick>
double largest(const std::vector<StartResult>& results, Pick pick) {
    double value = 0.0;
    for (const StartResult& result : results) {
        for (const CoursePoint& point : result.course) {
            value = std::max(value, pick(point));
        }
    }
    return value;
}

template <class Pick>
std::string chart_row(const char* label, const std::vector<StartResult>& results, double span_s,
                      double full_scale, Pick pick) {
    return row(label, results, [&](const StartResult& result) {
        std::vector<TimedValue> values;
        for (const CoursePoint& point : result.course) {
            values.push_back({point.time_s, pick(point)});
        }
        return "|" + text_chart(values, span_s, full_scale, chart_width) + "|";
    });
}

std::string chart_rows(const std::vector<StartResult>& results) {
    double span_s = 0.0;
    double synchronous = 0.0;
    double nominal = 0.0;
    for (const StartResult& result : results) {
        span_s = std::max(span_s, result.course.empty() ? 0.0 : result.course.back().time_s);
        synchronous = std::max(synchronous, result.synchronous_speed_rpm);
        nominal = std::max(nominal, result.supply_voltage_V);
    }
    if (span_s <= 0.0) {
        return "";
    }
    const double most_current =
        largest(results, [](const CoursePoint& p) { return p.line_current_rms_A; });
    const std::string current_label = fmt::format("current, to {:.0f} A", most_current);
    const std::string voltage_label = fmt::format("voltage, to {:.0f} V", nominal);
    const std::string speed_label = fmt::format("speed, to {:.0f} r/min", synchronous);
    const std::string time_label =
        fmt::format("0 to {:.1f} s, every {:.0f} ms", span_s, 1000.0 * span_s / chart_width);
    return row(time_label.c_str(), results, [](const StartResult&) { return ""; }) +
           chart_row(current_label.c_str(), results, span_s, most_current,
                     [](const CoursePoint& p) { return p.line_current_rms_A; }) +
           chart_row(voltage_label.c_str(), results, span_s, nominal,
                     [](const CoursePoint& p) { return p.line_voltage_rms_V; }) +
           chart_row(speed_label.c_str(), results, span_s, synchronous,
                     [](const CoursePoint& p) { return p.speed_rpm; });
}

std::string broken_monitors(const StartResult& result) {
    std::string text;
    for (const NamedViolation& broken : result.monitors) {
        text += "  " + broken_words(broken, result.has_limiter) + "\n";
    }
    return text;
}

std::string controller_story(const StartResult& result) {
    std::string text;
    for (const ControllerStep& step : result.controller_steps) {
        text += fmt::format("  {:>8.3f} s  {}\n", step.time_s, step_words(step));
    }
    return text;
}

}  // namespace

std::string verdict_line(const StartResult& result) {
    std::string line = fmt::format("{}: {}", result.scenario, word_of(result.outcome));
    if (!result.cause.empty()) {
        line += " (" + spaced(result.cause) + ")";
    }
    for (const NamedViolation& broken : result.monitors) {
        line += fmt::format(", BROKEN {}", broken.monitor);
    }
    if (result.outcome != result.expected) {
        line += fmt::format(", expected {}", word_of(result.expected));
    }
    return line + "\n";
}

std::string start_text(const std::vector<StartResult>& results) {
    std::string text = fmt::format("{}\n\n", results.front().title);
    for (const StartResult& result : results) {
        text += wrapped("  ", "    ", start_sentence(result));
    }
    for (const std::string& warning : results.back().warnings) {
        text += wrapped("  Beware: ", "    ", warning + ".");
    }
    text += "\n" + row("", results, [](const StartResult& r) {
                return r.has_limiter ? "THROUGH THE LIMITER" : "DIRECT START";
            });
    for (const StartFigureRow& figure : start_figure_rows()) {
        text += row(figure.label, results, figure.cell);
    }
    text += "\n" + chart_rows(results) + "\n";
    for (const StartResult& result : results) {
        text += broken_monitors(result);
    }
    for (const StartResult& result : results) {
        if (result.has_limiter) {
            text += "  What the controller did\n" + controller_story(result) + "\n";
        }
    }
    return text + cautions;
}

}  // namespace sim
