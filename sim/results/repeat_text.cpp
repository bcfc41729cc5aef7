#include "sim/results/repeat_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "sim/results/cautions.hpp"
#include "sim/results/spaced_word.hpp"
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

/// Not of a memory that is as it should be.
std::string memory_remark(const std::optional<RepeatedStart::Memory>& memory) {
    const bool is_told = memory && memory->found != firmware::Recovery::fresh &&
                         memory->found != firmware::Recovery::recovered;
    return is_told ? fmt::format(", memory: {}", firmware::name_of(memory->found)) : "";
}

std::string remark(const RepeatedStart& row) {
    const StartResult& start = row.start;
    std::string text = std::string(word_of(start.outcome));
    if (!start.cause.empty()) {
        text += " (" + start.cause + ")";
    }
    text = spaced(text) + memory_remark(row.memory);
    for (const NamedViolation& broken : start.monitors) {
        text += fmt::format(", BROKEN {}", broken.monitor);
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
                       row.stage ? fmt::format("{}", *row.stage) : "-", remark(row));
}

std::string settled_words(const RepeatResult& result) {
    if (result.starts.size() < fewest_to_settle) {
        return fmt::format("Whether it settles shows from {} starts on.", fewest_to_settle);
    }
    const std::optional<int> current = current_settled_after(result);
    std::string current_words =
        current ? fmt::format("The clamp current stays within 5 % from start {} on.", *current)
                : std::string("The clamp current has not settled within 5 % over three starts.");
    if (!has_learned(result)) {
        return current_words;
    }
    const std::optional<int> ladder = ladder_settled_after(result);
    return (ladder ? fmt::format("The ladder is the same within 5 % from start {} on. ", *ladder)
                   : std::string("The ladder has not settled within 5 % over three starts. ")) +
           current_words;
}

/// What a user may not expect of a controller that has lost its power.
std::string owed_rest_words(const RepeatResult& result) {
    const bool waits =
        result.plan.power_cuts &&
        std::any_of(result.starts.begin(), result.starts.end(),
                    [](const RepeatedStart& row) { return row.start.outcome == Outcome::resting; });
    return waits
               ? wrapped("  ", "  ",
                         "A controller that finds at power-up that a rest is owed cannot know how "
                         "long it was without power, and rests in full before it starts: give "
                         "[run] a duration_s beyond rest_before_retry_s, or a power_off_after_s "
                         "at which the rest is over.")
               : "";
}

std::string endurance_words(const RepeatResult& result) {
    const StoreWear& wear = result.store_wear;
    if (wear.word_writes == 0 && wear.erases == 0) {
        return "";
    }
    return wrapped(
        "  ", "  ",
        fmt::format("Memory: {} words written, {} page {}. At that rate 10,000 starts take {:.0f} "
                    "words and {:.0f} erases, which is {:.1f} % of the {:.0f} erases that a page "
                    "of flash is good for (common practice).",
                    wear.word_writes, wear.erases, wear.erases == 1 ? "erase" : "erases",
                    per_10000_starts(wear.word_writes, result),
                    per_10000_starts(wear.erases, result), 100.0 * endurance_share(result),
                    usual_page_endurance));
}

std::string level_words(const RepeatResult& result) {
    const auto& last = result.starts.back().memory;
    return last && has_learned(result)
               ? fmt::format("  The last start began with {:g} % of the first stage as set{}.\n",
                             0.1 * last->learned_level_permille,
                             last->settled ? ", settled" : ", still searching")
               : "";
}

std::string regret_words(const RepeatResult& result) {
    if (!result.regret) {
        return "";
    }
    const Regret& regret = *result.regret;
    const auto amperes = [](const std::optional<double>& value) {
        return value ? fmt::format("{:.1f} A", *value) : std::string("not up in time");
    };
    const std::string value =
        regret.value() ? fmt::format("Regret {:.3f}", *regret.value()) : std::string("No regret");
    return wrapped("  ", "  ",
                   fmt::format("{}: one more start, learned {}, with the settings' ladder {}, with "
                               "the best of {} ladders {}.",
                               value, amperes(regret.learned_A), amperes(regret.as_set_A),
                               regret.starts, amperes(regret.best_A)));
}

std::string counts(const RepeatResult& result) {
    const auto up = std::count_if(
        result.starts.begin(), result.starts.end(),
        [](const RepeatedStart& row) { return row.start.outcome == Outcome::running; });
    return fmt::format("{} of {} {}{}", up, result.starts.size(),
                       result.starts.size() == 1 ? "start comes up" : "starts come up",
                       result.interrupted ? ", stopped early" : "");
}

}  // namespace

std::string repeat_verdict(const RepeatResult& result) {
    const std::optional<int> settled = settled_after(result);
    return fmt::format("{}: {}{}{}\n", result.scenario, counts(result),
                       settled ? fmt::format(", settled from start {} on", *settled) : "",
                       result.as_expected() ? "" : ", not as expected");
}

std::string repeat_text(const RepeatResult& result) {
    std::string text = fmt::format("{}\n\n", result.title);
    text += wrapped("  ", "  ",
                    fmt::format("{} {}, {:g} s of rest between them{}.", counts(result),
                                result.has_limiter ? "through the limiter" : "directly",
                                result.plan.rest_between_s,
                                result.plan.power_cuts ? ", in which the controller loses its power"
                                                       : "")) +
            "\n";
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
    return text + "\n" + wrapped("  ", "  ", settled_words(result)) + level_words(result) +
           owed_rest_words(result) + regret_words(result) + endurance_words(result) +
           "  own: the current through the controller's output, as its sensor shows it.\n\n" +
           cautions;
}

}  // namespace sim
