#include "sim/results/comparison_words.hpp"

#include <fmt/format.h>

#include <array>

#include "sim/results/campaign_words.hpp"

namespace sim {

namespace {

constexpr double to_percent = 100.0;

void add_if(std::vector<std::string>& sentences, std::int64_t count, const char* what) {
    if (count > 0) {
        sentences.push_back(fmt::format("{} {}.", count, what));
    }
}

std::string signed_words(double value) {
    return (value > 0.0 ? "+" : "") + figure_words(value);
}

}  // namespace

std::string comparison_verdict(const Comparison& comparison) {
    if (comparison.all_identical()) {
        return fmt::format("Identical: every figure of all {} pairs, to the bit.",
                           comparison.pairs.pairs.size());
    }
    constexpr std::array<Change, 5> told = {Change::worse, Change::mixed, Change::better,
                                            Change::changed, Change::noise};
    std::string words;
    for (const Change change : told) {
        int count = 0;
        for (const RequirementChange& one : comparison.requirements) {
            count += one.change == change ? 1 : 0;
        }
        for (const FigureChange& one : comparison.figures) {
            count += one.change == change ? 1 : 0;
        }
        if (count > 0) {
            words += fmt::format("{}{} {}", words.empty() ? "" : ", ", count, word_of(change));
        }
    }
    return (comparison.anything_worse() ? "Something got worse: " : "Nothing got worse: ") +
           (words.empty() ? "no case moved" : words) + ".";
}

std::vector<std::string> pairing_sentences(const ComparedCampaigns& compared) {
    const CasePairs& pairs = compared.comparison.pairs;
    const CampaignRow& old_row = compared.old_results->campaign;
    const CampaignRow& new_row = compared.new_results->campaign;
    std::vector<std::string> sentences = {
        fmt::format("{} cases are the same in both and were compared.", pairs.pairs.size())};
    add_if(sentences, pairs.only_old, "cases are only in the old results");
    add_if(sentences, pairs.only_new, "cases are only in the new results");
    add_if(sentences, pairs.other_place,
           "cases have the same number but another place in the "
           "matrix, and were left out");
    add_if(sentences, pairs.other_inputs,
           "cases were drawn with another seed or other inputs, and were left out");
    add_if(sentences, pairs.unpaired_starts,
           "starts of compared series are only in one of the results");
    sentences.push_back(old_row.build == new_row.build
                            ? "Both are of the same build."
                            : fmt::format("Build {} against {}.", old_row.build, new_row.build));
    if (old_row.suite_hash != new_row.suite_hash) {
        sentences.emplace_back("The text of the suite differs.");
    }
    add_if(sentences, pairs.other_settings, "of the pairs have other controller settings");
    add_if(sentences, pairs.other_scenario, "of the pairs have another scenario");
    for (const CampaignRow* row : {&old_row, &new_row}) {
        if (!row->finished) {
            sentences.push_back(
                fmt::format("The {} results are not finished.", row == &old_row ? "old" : "new"));
        }
    }
    for (const std::string& figure : compared.comparison.figures_of_one) {
        sentences.push_back("Only one of them has " + figure + ".");
    }
    return sentences;
}

std::vector<std::string> comparison_rules_sentences(const ComparisonRules& rules) {
    return {
        "A simulation repeats to the bit: within a pair there is no noise, and whatever differs, "
        "the change did. Noise means that cases went both ways, or that too few moved a figure, so "
        "that these draws cannot tell which way the suite as a whole would go.",
        fmt::format("A case moved if its figure changed by more than {:g} % of itself. The figures "
                    "that moved are judged by the signed-rank test, verdicts by McNemar's exact "
                    "test, all of them corrected together by Holm's method at {:g} %.",
                    to_percent * rules.least_change, to_percent * rules.error),
        "The change is the median difference over all pairs, with an interval of at least 95 % "
        "from "
        "order statistics. A case counts once, however many starts its series has.",
        rules.strict
            ? "Strict: one case that newly fails is worse, however many newly pass."
            : "New failures are worse where none newly passes. Where some do, the test "
              "decides (--strict: they are worse); but a monitor that is newly broken, or an "
              "end without a result, is worse in a single case."};
}

std::string moved_words(const FigureChange& one) {
    const std::size_t count = one.moved.positive + one.moved.negative;
    std::string words = count == 0 ? fmt::format("none of {}", one.pairs)
                                   : fmt::format("{} up, {} down of {}", one.moved.positive,
                                                 one.moved.negative, one.pairs);
    if (one.only_old + one.only_new > 0) {
        words += fmt::format("; {} lost it, {} got it", one.only_old, one.only_new);
    }
    return words;
}

std::string difference_words(const FigureChange& one) {
    if (one.pairs == 0) {
        return "-";
    }
    const std::string median = signed_words(one.difference.median);
    return one.difference.interval
               ? fmt::format("{} ({} to {})", median, signed_words(one.difference.interval->first),
                             signed_words(one.difference.interval->second))
               : median;
}

std::string p_words(double p_value) {
    constexpr double smallest = 0.0001;
    return p_value < smallest ? "<0.0001" : fmt::format("{:.4f}", p_value);
}

bool is_worth_a_row(const RequirementChange& one) {
    return one.change != Change::same || one.requirement == "passed";
}

bool is_worth_a_row(const FigureChange& one) {
    return (one.change != Change::same && one.change != Change::identical) ||
           one.only_old + one.only_new > 0;
}

}  // namespace sim
