#include "sim/results/campaign_words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "sim/regression/start_failures.hpp"
#include "sim/results/spaced_word.hpp"

namespace sim {

namespace {

constexpr double to_percent = 100.0;

std::int64_t starts_without_result(const CampaignResults& results) {
    std::int64_t count = 0;
    for (const CaseRecord& one : results.cases) {
        for (const StartRow& start : one.starts) {
            count += has_no_result(start) ? 1 : 0;
        }
    }
    return count;
}

}  // namespace

std::string rate_words(const SuccessRate& rate) {
    return fmt::format("{:.1f} % ({:.1f} to {:.1f})", to_percent * rate.share(),
                       to_percent * rate.lowest(), to_percent * rate.highest());
}

std::string campaign_verdict(const CampaignResults& results) {
    const CampaignRow& campaign = results.campaign;
    if (results.cases.empty()) {
        return fmt::format("{}: no case has been run.", campaign.suite);
    }
    SuccessRate rate;
    for (const CaseRecord& one : results.cases) {
        ++rate.trials;
        rate.successes += one.passed() ? 1 : 0;
    }
    const char* verdict = !campaign.finished         ? "is not finished"
                          : campaign_passed(results) ? "passed"
                                                     : "did not pass";
    return fmt::format("{} {}: {} of {} cases are as expected.", campaign.suite, verdict,
                       rate_words(rate), rate.trials);
}

std::vector<std::string> campaign_warnings(const CampaignResults& results,
                                           const CampaignSummary& summary) {
    const CampaignRow& campaign = results.campaign;
    std::vector<std::string> warnings;
    if (campaign.shard_total > 1) {
        warnings.push_back(fmt::format("These are the cases of shard {} of {} alone.",
                                       campaign.shard_index, campaign.shard_total));
    }
    if (!campaign.finished) {
        warnings.push_back(
            fmt::format("The campaign is not finished: {} of the suite's {} cases "
                        "are here.",
                        results.cases.size(), campaign.cases));
    }
    if (const std::int64_t lost = starts_without_result(results); lost > 0) {
        warnings.push_back(
            fmt::format("{} starts ended without a result (crashed, hung, failed, "
                        "or refused).",
                        lost));
    }
    for (const BrokenCount& one : summary.broken) {
        if (one.requirement.rfind("monitor:", 0) == 0) {
            warnings.push_back(fmt::format("A safety monitor was broken: {}, starts: {}.",
                                           one.requirement.substr(8), one.starts));
        }
    }
    return warnings;
}

std::string required_rate_words(const BlockVerdict& block) {
    if (!block.success_at_least_percent) {
        return "";
    }
    return fmt::format("{:.2f} % of starts ended as accepted; {:g} % required: {}",
                       block.success_percent(), *block.success_at_least_percent,
                       !block.rate_is_judged ? "not judged in a shard"
                       : block.rate_met()    ? "met"
                                             : "not met");
}

std::string start_words(const StartRow& start) {
    std::string words = spaced(start.outcome);
    if (!start.cause.empty()) {
        words += " (" + spaced(start.cause) + ")";
    }
    for (const BrokenRequirement& one : start.broken) {
        words += "; " + one.requirement + (one.words.empty() ? "" : ": " + one.words);
    }
    return words;
}

std::string figure_words(double value) {
    constexpr double large = 1000.0;
    return std::abs(value) >= large ? fmt::format("{:.0f}", value) : fmt::format("{:.4g}", value);
}

}  // namespace sim
