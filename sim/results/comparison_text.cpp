#include "sim/results/comparison_text.hpp"

#include <fmt/format.h>

#include "sim/results/campaign_words.hpp"
#include "sim/results/wrapped_text.hpp"

namespace sim {

namespace {

std::string scope_words(const std::string& block) {
    return block.empty() ? "" : " [" + block + "]";
}

std::string requirement_line(const RequirementChange& one) {
    constexpr double to_percent = 100.0;
    const auto percent_of = [&one](std::int64_t count) {
        return to_percent * static_cast<double>(count) / static_cast<double>(one.cases.pairs());
    };
    if (one.cases.pairs() == 0) {
        return "";
    }
    return fmt::format(
        "  {:<9} {}{}\n            held by {:.1f} % -> {:.1f} % of {} cases; newly failed {}, "
        "newly "
        "passed {}{}\n            change of the rate {:+.2f} points ({:+.2f} to {:+.2f})\n",
        word_of(one.change), one.requirement, scope_words(one.block),
        percent_of(one.cases.both_passed + one.cases.newly_failed),
        percent_of(one.cases.both_passed + one.cases.newly_passed), one.cases.pairs(),
        one.cases.newly_failed, one.cases.newly_passed,
        one.is_safety || one.change == Change::same ? "" : "; p " + p_words(one.adjusted_p),
        to_percent * one.cases.difference(), to_percent * one.cases.difference_lowest(),
        to_percent * one.cases.difference_highest());
}

std::string figure_line(const FigureChange& one) {
    return fmt::format(
        "  {:<9} {}{}\n            median {} -> {}; change {}\n            moved: {}; lean "
        "{:+.2f}; "
        "p {}\n",
        word_of(one.change), one.figure, scope_words(one.block), figure_words(one.old_median),
        figure_words(one.new_median), difference_words(one), moved_words(one), one.moved.lean(),
        p_words(one.adjusted_p));
}

/// The cases that passed before and do not now; at most ten.
std::string newly_failed_text(const ComparedCampaigns& compared) {
    constexpr std::size_t most = 10;
    std::string text;
    std::size_t count = 0;
    for (const CasePair& pair : compared.comparison.pairs.pairs) {
        if (pair.newly_fails() && ++count <= most) {
            text += fmt::format("    {}\n", rerun_command(*compared.new_results, *pair.new_case));
        }
    }
    if (count > most) {
        text += fmt::format("    and {} more; --json names all of them\n", count - most);
    }
    return text.empty() ? "" : "  Passed before and do not now\n" + text + "\n";
}

}  // namespace

std::string comparison_text(const ComparedCampaigns& compared) {
    const Comparison& comparison = compared.comparison;
    std::string text = fmt::format("{} against {}\n\n", compared.new_name, compared.old_name);
    text += wrapped("  ", "  ", comparison_verdict(comparison)) + "\n";
    for (const std::string& sentence : pairing_sentences(compared)) {
        text += wrapped("  ", "    ", sentence);
    }
    if (comparison.all_identical()) {
        return text;
    }
    text += "\n";
    for (const RequirementChange& one : comparison.requirements) {
        text += is_worth_a_row(one) ? requirement_line(one) : "";
    }
    std::size_t untold = 0;
    for (const FigureChange& one : comparison.figures) {
        if (is_worth_a_row(one)) {
            text += figure_line(one);
        } else {
            ++untold;
        }
    }
    if (untold > 0) {
        text += fmt::format("  the other {} figures did not move\n", untold);
    }
    text += "\n" + newly_failed_text(compared);
    for (const std::string& sentence : comparison_rules_sentences(compared.rules)) {
        text += wrapped("  ", "  ", sentence);
    }
    return text;
}

}  // namespace sim
