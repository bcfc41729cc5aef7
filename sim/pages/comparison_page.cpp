#include "sim/pages/comparison_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "sim/results/campaign_words.hpp"

namespace sim {

namespace {

std::string block_words(const std::string& block) {
    return block.empty() ? "all" : block;
}

std::string rate_of(std::int64_t held, std::int64_t pairs) {
    constexpr double to_percent = 100.0;
    return pairs == 0 ? "-"
                      : fmt::format("{:.1f} %", to_percent * static_cast<double>(held) /
                                                    static_cast<double>(pairs));
}

Table requirements_table(const Comparison& comparison) {
    constexpr double to_percent = 100.0;
    Table table;
    table.columns = {"requirement", "block",    "change",       "held, old",    "held, new",
                     "points",      "interval", "newly failed", "newly passed", "p"};
    for (const RequirementChange& one : comparison.requirements) {
        if (!is_worth_a_row(one)) {
            continue;
        }
        const PairedRates& cases = one.cases;
        table.rows.push_back(
            {one.requirement, block_words(one.block), std::string(word_of(one.change)),
             rate_of(cases.both_passed + cases.newly_failed, cases.pairs()),
             rate_of(cases.both_passed + cases.newly_passed, cases.pairs()),
             fmt::format("{:+.2f}", to_percent * cases.difference()),
             fmt::format("{:+.2f} to {:+.2f}", to_percent * cases.difference_lowest(),
                         to_percent * cases.difference_highest()),
             fmt::format("{}", cases.newly_failed), fmt::format("{}", cases.newly_passed),
             one.is_safety ? "not a rate" : p_words(one.adjusted_p)});
    }
    return table;
}

Table figures_table(const Comparison& comparison) {
    Table table;
    table.columns = {"figure",     "block",      "change", "old median",
                     "new median", "difference", "moved",  "p"};
    for (const FigureChange& one : comparison.figures) {
        if (is_worth_a_row(one)) {
            table.rows.push_back({one.figure, block_words(one.block),
                                  std::string(word_of(one.change)), figure_words(one.old_median),
                                  figure_words(one.new_median), difference_words(one),
                                  moved_words(one), p_words(one.adjusted_p)});
        }
    }
    return table;
}

Table newly_failed_table(const ComparedCampaigns& compared) {
    constexpr std::size_t most = 200;
    Table table;
    table.columns = {"run it again", "what it is", "how it ended before", "how it ends now"};
    for (const CasePair& pair : compared.comparison.pairs.pairs) {
        const auto start =
            std::find_if(pair.starts.begin(), pair.starts.end(),
                         [](const StartPair& one) { return !one.new_start->passed; });
        if (pair.newly_fails() && start != pair.starts.end() && table.rows.size() < most) {
            table.rows.push_back({rerun_command(*compared.new_results, *pair.new_case),
                                  place_words(pair.new_case->place), start_words(*start->old_start),
                                  start_words(*start->new_start)});
        }
    }
    table.caption =
        table.rows.size() < most
            ? "Cases that passed before and do not now; of a series, its first such start."
            : fmt::format("The first {} cases that passed before and do not now.", most);
    return table;
}

}  // namespace

Page comparison_page(const ComparedCampaigns& compared) {
    Page page;
    page.title = compared.new_name + " against " + compared.old_name;
    page.lead = comparison_verdict(compared.comparison);
    std::vector<PagePart> pairing;
    for (const std::string& sentence : pairing_sentences(compared)) {
        pairing.emplace_back(Paragraph{sentence});
    }
    page.sections.push_back({"Requirements", {requirements_table(compared.comparison)}, ""});
    if (Table newly_failed = newly_failed_table(compared); !newly_failed.rows.empty()) {
        page.sections.push_back({"Newly failed", {std::move(newly_failed)}, ""});
    }
    Table figures = figures_table(compared.comparison);
    if (figures.rows.empty()) {
        page.sections.push_back({"Figures", {Paragraph{"No figure moved."}}, ""});
    } else {
        page.sections.push_back({"Figures", {std::move(figures)}, ""});
    }
    page.sections.push_back({"What was compared", std::move(pairing), ""});
    std::vector<PagePart> rules;
    for (const std::string& sentence : comparison_rules_sentences(compared.rules)) {
        rules.emplace_back(Paragraph{sentence});
    }
    page.sections.push_back({"How to read it", std::move(rules), ""});
    return page;
}

}  // namespace sim
