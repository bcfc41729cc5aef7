#include "sim/results/regress_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/regression/rerun_command.hpp"
#include "sim/results/wrapped_text.hpp"

namespace sim {

namespace {

template <class Count>
std::string counted(Count count, std::string_view what) {
    return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

/// "99.95 % (99.82 to 99.99)"
std::string rate_words(const SuccessRate& rate) {
    return fmt::format("{:.4g} % ({:.4g} to {:.4g})", 100.0 * rate.share(), 100.0 * rate.lowest(),
                       100.0 * rate.highest());
}

std::string needs_words(const BlockSummary& block) {
    if (!block.least_accepted_percent) {
        return "all";
    }
    return fmt::format("{:.4g} % of starts; {:.4g} %", *block.least_accepted_percent,
                       block.accepted_percent());
}

std::string row_of(std::size_t width, std::string_view block, std::string_view cases,
                   std::string_view passed, std::string_view rate, std::string_view needs,
                   std::string_view mark) {
    std::string row = fmt::format("  {:{}} {:>7} {:>7}  {:26} {}{}", block, width, cases, passed,
                                  rate, needs, mark);
    row.erase(row.find_last_not_of(' ') + 1);
    return row + "\n";
}

std::string table(const RegressSummary& summary) {
    std::size_t width = 8;
    for (const BlockSummary& block : summary.blocks) {
        width = std::max(width, block.block.size());
    }
    std::string text =
        row_of(width, "BLOCK", "CASES", "PASSED", "SUCCESS, 95 % INTERVAL", "NEEDED", "");
    for (const BlockSummary& block : summary.blocks) {
        text += row_of(width, block.block, std::to_string(block.passed.trials),
                       std::to_string(block.passed.successes), rate_words(block.passed),
                       needs_words(block), block.holds() ? "" : "  NOT MET");
    }
    if (summary.blocks.size() > 1) {
        text +=
            row_of(width, "all", std::to_string(summary.passed.trials),
                   std::to_string(summary.passed.successes), rate_words(summary.passed), "", "");
    }
    return text;
}

std::string place_words(const CasePlace& place) {
    std::string words;
    for (const std::string* side :
         {&place.compressor, &place.supply, &place.condition, &place.fault, &place.setting}) {
        if (!side->empty()) {
            words += (words.empty() ? "" : ", ") + *side;
        }
    }
    return words.empty() ? place.block : words;
}

std::string what_broke(const RegressSummary& summary) {
    if (summary.broken.empty()) {
        return "";
    }
    std::string text = "\nWhat was not met\n";
    for (const BrokenSummary& row : summary.broken) {
        text += wrapped(fmt::format("  {:>7}  ", counted(row.starts, "start")), "      ",
                        fmt::format("{}, first in case {}: {}", row.requirement, row.first_case,
                                    row.first_words));
    }
    return text;
}

std::string first_failed(const RegressSummary& summary, const RegressNames& names) {
    if (summary.first_failed.empty()) {
        return "";
    }
    std::string text = "\nThe first cases that failed\n";
    for (const FailedCase& one : summary.first_failed) {
        text +=
            wrapped(fmt::format("  #{}  ", one.id), "      ",
                    fmt::format("{}: {}: {}", place_words(one.place), one.requirement, one.words));
    }
    const FailedCase& first = summary.first_failed.front();
    return text + "Rerun one: " + rerun_command(names.suite, first.id, first.is_series) + "\n";
}

int failures(const RegressSummary& summary) {
    int sum = 0;
    for (const BlockSummary& block : summary.blocks) {
        sum += block.failures;
    }
    return sum;
}

std::string share_words(const RegressSummary& summary) {
    const CampaignRow& campaign = summary.campaign;
    std::string words =
        fmt::format("{} of {}", summary.passed.trials, counted(summary.share, "case"));
    if (campaign.shard_total > 1) {
        words += fmt::format(" of shard {}/{}", campaign.shard_index, campaign.shard_total);
    }
    return words + ", " + counted(summary.starts, "start");
}

}  // namespace

std::string regress_text(const RegressSummary& summary, const RegressNames& names) {
    const CampaignRow& campaign = summary.campaign;
    std::string text = campaign.title.empty() || campaign.title == campaign.suite
                           ? campaign.suite + "\n"
                           : fmt::format("{}: {}\n", campaign.suite, campaign.title);
    text += fmt::format("  {}, build {}\n\n", share_words(summary), campaign.build);
    text += table(summary) + what_broke(summary) + first_failed(summary, names);
    text += fmt::format("\nEvery case is in {}.\n", names.results);
    return text + regress_verdict(summary);
}

std::string regress_verdict(const RegressSummary& summary) {
    const int failed = failures(summary);
    std::string rates;
    for (const BlockSummary& block : summary.blocks) {
        if (block.failures == 0 && !block.holds()) {
            rates += fmt::format("; {} has {:.4g} % of its starts, not {:.4g} %", block.block,
                                 block.accepted_percent(), *block.least_accepted_percent);
        }
    }
    std::string verdict =
        summary.as_expected()
            ? fmt::format("As expected: {} of {} passed", summary.passed.successes,
                          counted(summary.passed.trials, "case"))
        : failed > 0 || !rates.empty()
            ? fmt::format("Not as expected: {} failed", counted(failed, "case"))
            : "Not finished: " + share_words(summary);
    return summary.campaign.suite + ": " + verdict + rates + "\n";
}

}  // namespace sim
