#include "sim/results/campaign_text.hpp"

#include <fmt/format.h>

#include "sim/reporting/failure_drivers.hpp"
#include "sim/reporting/figure_distribution.hpp"
#include "sim/results/campaign_words.hpp"
#include "sim/results/wrapped_text.hpp"

namespace sim {

namespace {

std::string heading(const CampaignResults& results) {
    const CampaignRow& campaign = results.campaign;
    return fmt::format("{}\n\n  suite {}, {}\n  build {}\n  {} starts in {} cases\n\n",
                       campaign.title.empty() ? campaign.suite : campaign.title, campaign.suite,
                       campaign.suite_hash, campaign.build, results.start_count(),
                       results.cases.size());
}

std::string rates_text(const CampaignSummary& summary) {
    std::string text;
    for (const SideRates& side : summary.sides) {
        text += fmt::format("  {:<44} {:>7} {:>7}  RATE, % (95 % INTERVAL)\n",
                            fmt::format("BY {}", side.side), "CASES", "FAILED");
        for (const NamedRate& one : side.rates) {
            text += fmt::format("    {:<42} {:>7} {:>7}  {}\n", one.name.empty() ? "-" : one.name,
                                one.cases.trials, one.cases.trials - one.cases.successes,
                                rate_words(one.cases));
        }
        text += "\n";
    }
    return text;
}

std::string required_rates_text(const CampaignResults& results) {
    std::string text;
    for (const BlockVerdict& block : block_verdicts(results)) {
        if (const std::string words = required_rate_words(block); !words.empty()) {
            text += wrapped("    ", "      ", block.block + ": " + words + ".");
        }
    }
    return text.empty() ? "" : "  Rates that were asked for\n" + text + "\n";
}

std::string broken_text(const CampaignSummary& summary, const CampaignResults& results) {
    if (summary.broken.empty()) {
        return "";
    }
    std::string text = "  What was not held\n";
    for (const BrokenCount& one : summary.broken) {
        text += wrapped("    ", "      ",
                        fmt::format("{}, starts: {}, cases: {}; the first: {} ({})",
                                    one.requirement, one.starts, one.cases,
                                    rerun_command(results, *one.example), one.example_words));
    }
    return text + "\n";
}

std::string worst_text(const CampaignSummary& summary, const CampaignResults& results) {
    if (summary.worst.empty()) {
        return "";
    }
    std::string text = "  The worst starts, and what runs them again\n";
    for (const WorstStart& one : summary.worst) {
        text += fmt::format("    {}\n", rerun_command(results, *one.in_case));
        text += wrapped(
            "      ", "      ",
            fmt::format(
                "{}{}: {}", place_words(one.in_case->place),
                one.in_case->starts.size() > 1 ? fmt::format(", start {}", one.start->start) : "",
                start_words(*one.start)));
    }
    return text + "\n";
}

std::string drivers_text(const CampaignResults& results) {
    std::string text = "  What drives failure\n";
    for (const BlockDrivers& block : failure_drivers(results)) {
        for (const std::string& sentence : driver_sentences(block)) {
            text += wrapped("    ", "      ", block.block + ": " + sentence);
        }
    }
    return text + "\n";
}

std::string figures_text(const CampaignResults& results) {
    std::string text = fmt::format("  {:<36} {:>7} {:>9} {:>9} {:>9} {:>9} {:>9}\n", "FIGURE",
                                   "STARTS", "LOWEST", "LOW 5 %", "MEDIAN", "HIGH 5 %", "HIGHEST");
    for (const FigureDistribution& one : figure_distributions(results)) {
        text += fmt::format("  {:<36} {:>7} {:>9} {:>9} {:>9} {:>9} {:>9}\n", one.figure,
                            one.starts, figure_words(one.lowest), figure_words(one.low_5_percent),
                            figure_words(one.median), figure_words(one.high_5_percent),
                            figure_words(one.highest));
    }
    return text;
}

}  // namespace

std::string campaign_text(const CampaignResults& results) {
    const CampaignSummary summary = summary_of(results);
    std::string text = heading(results);
    text += wrapped("  ", "  ", campaign_verdict(results));
    for (const std::string& warning : campaign_warnings(results, summary)) {
        text += wrapped("  Beware: ", "    ", warning);
    }
    text += "\n";
    return text + rates_text(summary) + required_rates_text(results) +
           broken_text(summary, results) + worst_text(summary, results) + drivers_text(results) +
           figures_text(results);
}

}  // namespace sim
