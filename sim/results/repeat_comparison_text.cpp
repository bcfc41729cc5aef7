#include "sim/results/repeat_comparison_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/results/cautions.hpp"
#include "sim/results/repeat_text.hpp"
#include "sim/results/spaced_word.hpp"

namespace sim {

namespace {

/// Of a group of columns: clamp current, stage, outcome.
constexpr const char* group = "   {:>7}  {:>5}  {:<18}";

std::string outcome_words(const StartResult& start) {
    return spaced(std::string(word_of(start.outcome))) + (start.monitors.empty() ? "" : ", BROKEN");
}

std::string cells(const RepeatedStart& row) {
    const auto& inrush = row.start.figures.line_current_inrush_100ms_rms_A;
    return fmt::format(fmt::runtime(group), inrush ? fmt::format("{:.1f}", *inrush) : "-",
                       row.stage ? fmt::format("{}", *row.stage) : "-", outcome_words(row.start));
}

/// One line of the table; `cell` gives each law's part.
template <class Cell>
std::string line(const RepeatComparison& comparison, const std::string& label, Cell cell) {
    std::string text = fmt::format("  {:>8}", label);
    for (std::size_t k = 0; k < comparison.series.size(); ++k) {
        text += cell(k);
    }
    text.erase(text.find_last_not_of(' ') + 1);
    return text + "\n";
}

std::string number(const std::optional<double>& value, int decimals) {
    return fmt::format(fmt::runtime(group), value ? fmt::format("{:.{}f}", *value, decimals) : "-",
                       "", "");
}

}  // namespace

std::string repeat_comparison_verdict(const RepeatComparison& comparison) {
    std::string text;
    for (const LawSeries& one : comparison.series) {
        text += fmt::format("learning law {}, {}", one.learning_law, repeat_verdict(one.result));
    }
    return text;
}

std::string repeat_comparison_text(const RepeatComparison& comparison) {
    std::string text = comparison.title + "\n\n  The same starts with each learning law.\n\n";
    const auto& series = comparison.series;
    text += line(comparison, "",
                 [&](std::size_t k) { return fmt::format("   {:<34}", series[k].learning_law); });
    text += line(comparison, "no.", [](std::size_t) {
        return fmt::format(fmt::runtime(group), "clamp A", "stage", "outcome");
    });
    std::size_t rows = 0;
    for (const LawSeries& one : series) {
        rows = std::max(rows, one.result.starts.size());
    }
    for (std::size_t row = 0; row < rows; ++row) {
        // The changes are the same in every series; an interrupted one may not have come to them.
        const std::string& changed = series.front().result.starts[row].changed;
        if (!changed.empty()) {
            text += fmt::format("  changed: {}\n", changed);
        }
        text += line(comparison, fmt::format("{}", row + 1), [&](std::size_t k) {
            const auto& starts = series[k].result.starts;
            return row < starts.size() ? cells(starts[row])
                                       : fmt::format(fmt::runtime(group), "", "", "");
        });
    }
    text += "\n" + line(comparison, "settled", [&](std::size_t k) {
                return number(settled_inrush_A(series[k].result), 1);
            });
    text += line(comparison, "from no.", [&](std::size_t k) {
        const auto settled = settled_after(series[k].result);
        return number(settled ? std::optional<double>(*settled) : std::nullopt, 0);
    });
    text += line(comparison, "ratio",
                 [&](std::size_t k) { return number(settled_ratio(comparison, k), 3); });
    return text +
           "\n  settled: the largest clamp current (any 100 ms) from the start on from which the "
           "ladder stays\n  within 5 %, or the current itself where nothing is learned; ratio: "
           "that "
           "over the last law's.\n\n" +
           std::string(cautions);
}

}  // namespace sim
