#include "sim/results/start_words.hpp"

#include <fmt/format.h>

#include <cmath>
#include <optional>

#include "sim/results/spaced_word.hpp"

namespace sim {

namespace {

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
        case Outcome::controller_failed:
            return "the controller failed";
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

std::string why_words(const StartResult& result) {
    return result.cause.empty() ? std::string("-") : spaced(result.cause);
}

}  // namespace

std::string start_sentence(const StartResult& result) {
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

const std::vector<StartFigureRow>& start_figure_rows() {
    using R = const StartResult&;
    static const std::vector<StartFigureRow> rows = {
        {"verdict", verdict_words},
        {"why", why_words},
        {"inrush clamp, 100 ms RMS",
         [](R r) { return amperes(r.figures.line_current_inrush_100ms_rms_A); }},
        {"half-cycle RMS, highest",
         [](R r) { return amperes(r.figures.line_current_half_cycle_rms_max_A); }},
        {"peak current", [](R r) { return amperes(r.figures.line_current_peak_A); }},
        {"lowest line voltage", lowest_voltage},
        {"time to 90 % speed", [](R r) { return seconds(r.figures.time_to_speed_s, "never"); }},
        {"bypass takes over", [](R r) { return seconds(r.figures.handover_s, "-"); }},
        {"start capacitor in for", capacitor_words},
        {"speed at the end", speed_words},
        {"safety monitors", monitor_words},
        {"energy audit closes to",
         [](R r) { return fmt::format("{:.4f} %", 100.0 * r.energy.closure()); }},
    };
    return rows;
}

std::string step_words(const ControllerStep& step) {
    if (step.seen) {
        return name_of(*step.seen);
    }
    const bool climbing = step.state == firmware::State::climbing && step.has_stage;
    const bool has_reason = step.reason != firmware::Reason::none;
    return fmt::format("{}{}{}", firmware::name_of(step.state),
                       climbing ? fmt::format(", stage {}", step.stage + 1) : "",
                       has_reason ? fmt::format(" ({})", firmware::name_of(step.reason)) : "");
}

std::string broken_words(const NamedViolation& broken, bool has_limiter) {
    return fmt::format("BROKEN {}{}: at {:.4f} s, {:.3f} {} seen, {:.3f} allowed", broken.monitor,
                       has_limiter ? "" : " in the direct start", broken.violation.time_s,
                       broken.violation.seen, broken.violation.unit, broken.violation.allowed);
}

}  // namespace sim
