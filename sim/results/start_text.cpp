#include "sim/results/start_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "sim/results/cautions.hpp"
#include "sim/results/spaced_word.hpp"
#include "sim/results/text_chart.hpp"
#include "sim/results/wrapped_text.hpp"

namespace sim {

namespace {

constexpr int label_width = 25;
constexpr int column_width = 27;
constexpr int chart_width = 24;

std::string amperes(const std::optional<double>& value) {
    return value ? fmt::format("{:.1f} A", *value) : "-";
}

std::string seconds(const std::optional<double>& value, const char* otherwise) {
    return value ? fmt::format("{:.3f} s", *value) : otherwise;
}

std::string lowest_voltage(const StartResult& result) {
    const auto& lowest = result.figures.line_voltage_half_cycle_rms_min_V;
    return lowest ? fmt::format("{:.1f} V ({:.0f} %)", *lowest,
                                100.0 * *lowest / result.supply_voltage_V)
                  : "-";
}

std::string verdict_words(const StartResult& result) {
    switch (result.outcome) {
        case Outcome::running:
            return "comes up";
        case Outcome::running_backwards:
            return "runs backwards";
        case Outcome::stalled:
            return "does not come up";
        case Outcome::protector_open:
            return "its protection has it off";
        case Outcome::resting:
            return "let go, rests before retry";
        case Outcome::locked_out:
            return "locked out";
        case Outcome::supply_tripped:
            return "the supply trips";
        case Outcome::stopped:
            return "stopped with the call";
        case Outcome::not_started:
            return "not started";
    }
    return "";
}

std::string failure_words(const StartResult& result) {
    switch (result.outcome) {
        case Outcome::supply_tripped:
            return "it trips the supply";
        case Outcome::running_backwards:
            return "it runs backwards";
        case Outcome::protector_open:
            return result.figures.time_to_speed_s ? "it comes up, and its protection opens"
                                                  : "its protection opens";
        default:
            return "it does not come up";
    }
}

/// What happened, in one sentence of the run's own numbers.
std::string sentence(const StartResult& result) {
    const StartFigures& figures = result.figures;
    std::string text = result.has_limiter ? "Through the limiter" : "Started directly";
    if (result.outcome == Outcome::running && figures.time_to_speed_s) {
        text += fmt::format(" it comes up in {:.2f} s", *figures.time_to_speed_s);
    } else {
        text += " " + failure_words(result);
    }
    if (figures.line_current_inrush_100ms_rms_A) {
        text += fmt::format(", {:.0f} A on the clamp", *figures.line_current_inrush_100ms_rms_A);
    }
    // After a trip the line is dead: how far it fell before that is in the course below.
    if (figures.line_voltage_half_cycle_rms_min_V && result.outcome != Outcome::supply_tripped) {
        text += fmt::format("; the line falls to {:.0f} V of {:.0f} V",
                            *figures.line_voltage_half_cycle_rms_min_V, result.supply_voltage_V);
    }
    return text + ".";
}

std::string speed_words(const StartResult& result) {
    const double speed = result.figures.final_speed_rpm;
    // Adding zero takes the sign off a rotor that trembles backwards.
    return fmt::format("{:.0f} r/min ({:.0f} %)", std::round(speed) + 0.0,
                       std::round(100.0 * speed / result.synchronous_speed_rpm) + 0.0);
}

std::string capacitor_words(const StartResult& result) {
    return result.has_limiter ? fmt::format("{:.3f} s", result.figures.start_capacitor_in_s) : "-";
}

std::string monitor_words(const StartResult& result) {
    return result.monitors.empty() ? "none broken"
                                   : fmt::format("{} BROKEN", result.monitors.size());
}

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
        text += fmt::format("  BROKEN {}{}: at {:.4f} s, {:.3f} {} seen, {:.3f} allowed\n",
                            broken.monitor, result.has_limiter ? "" : " in the direct start",
                            broken.violation.time_s, broken.violation.seen, broken.violation.unit,
                            broken.violation.allowed);
    }
    return text;
}

std::string controller_story(const StartResult& result) {
    std::string text;
    for (const ControllerStep& step : result.controller_steps) {
        const bool climbing = step.state == firmware::State::climbing;
        const bool has_reason = step.reason != firmware::Reason::none;
        text += fmt::format("  {:>8.3f} s  {}{}{}\n", step.time_s, firmware::name_of(step.state),
                            climbing ? fmt::format(", stage {}", step.stage + 1) : "",
                            has_reason ? fmt::format(" ({})", firmware::name_of(step.reason)) : "");
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
        text += wrapped("  ", "    ", sentence(result));
    }
    for (const std::string& warning : results.back().warnings) {
        text += wrapped("  Beware: ", "    ", warning + ".");
    }
    text += "\n" + row("", results, [](const StartResult& r) {
                return r.has_limiter ? "THROUGH THE LIMITER" : "DIRECT START";
            });
    text += row("verdict", results, verdict_words);
    text += row("why", results, [](const StartResult& r) {
        return r.cause.empty() ? std::string("-") : spaced(r.cause);
    });
    text += row("inrush clamp, 100 ms RMS", results, [](const StartResult& r) {
        return amperes(r.figures.line_current_inrush_100ms_rms_A);
    });
    text += row("half-cycle RMS, highest", results, [](const StartResult& r) {
        return amperes(r.figures.line_current_half_cycle_rms_max_A);
    });
    text += row("peak current", results,
                [](const StartResult& r) { return amperes(r.figures.line_current_peak_A); });
    text += row("lowest line voltage", results, lowest_voltage);
    text += row("time to 90 % speed", results,
                [](const StartResult& r) { return seconds(r.figures.time_to_speed_s, "never"); });
    text += row("bypass takes over", results,
                [](const StartResult& r) { return seconds(r.figures.handover_s, "-"); });
    text += row("start capacitor in for", results, capacitor_words);
    text += row("speed at the end", results, speed_words);
    text += row("safety monitors", results, monitor_words);
    text += row("energy audit closes to", results, [](const StartResult& r) {
        return fmt::format("{:.4f} %", 100.0 * r.energy.closure());
    });
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
