#include "sim/pages/campaign_page.hpp"

#include <fmt/format.h>

#include <utility>

#include "sim/pages/campaign_heat_maps.hpp"
#include "sim/reporting/failure_drivers.hpp"
#include "sim/reporting/figure_distribution.hpp"
#include "sim/results/campaign_words.hpp"

namespace sim {

namespace {

Table rates_table(const SideRates& side) {
    Table table;
    table.columns = {side.side, "cases", "failed", "as expected, with the 95 % interval"};
    for (const NamedRate& one : side.rates) {
        table.rows.push_back(
            {one.name.empty() ? "none" : one.name, fmt::format("{}", one.cases.trials),
             fmt::format("{}", one.cases.trials - one.cases.successes), rate_words(one.cases)});
    }
    return table;
}

Section rates_section(const CampaignResults& results, const CampaignSummary& summary) {
    Section section{"Success rates", {}, ""};
    section.parts.emplace_back(Paragraph{fmt::format(
        "All {} cases: {}. {} of {} starts were as expected. A case is one draw; the starts of its "
        "series count together.",
        summary.cases.trials, rate_words(summary.cases), summary.starts_passed, summary.starts)});
    for (const BlockVerdict& block : block_verdicts(results)) {
        if (const std::string words = required_rate_words(block); !words.empty()) {
            section.parts.emplace_back(Paragraph{block.block + ": " + words + "."});
        }
    }
    for (const SideRates& side : summary.sides) {
        section.parts.emplace_back(rates_table(side));
    }
    return section;
}

Section broken_section(const CampaignSummary& summary, const CampaignResults& results) {
    Table table;
    table.columns = {"not held", "starts", "cases", "first words", "first case again"};
    for (const BrokenCount& one : summary.broken) {
        table.rows.push_back({one.requirement, fmt::format("{}", one.starts),
                              fmt::format("{}", one.cases), one.example_words,
                              rerun_command(results, *one.example)});
    }
    return {"What was not held", {table}, ""};
}

Section worst_section(const CampaignSummary& summary, const CampaignResults& results) {
    Table table;
    table.caption =
        "A broken monitor comes before an end without a result, that before another outcome, that "
        "before a limit; then what broke more, then the hotter winding. Where there are more, "
        "every place of the matrix has one "
        "before any has two.";
    table.columns = {"run it again", "start", "what it is", "how it ended"};
    for (const WorstStart& one : summary.worst) {
        table.rows.push_back({rerun_command(results, *one.in_case),
                              fmt::format("{}", one.start->start), place_words(one.in_case->place),
                              start_words(*one.start)});
    }
    return {"The worst starts", {table}, ""};
}

Table drivers_table(const BlockDrivers& block) {
    Table table;
    table.caption = fmt::format(
        "{}: {} of {} cases failed. The probability that a failed case has a higher value than a "
        "passed one; 0.5: no bearing.",
        block.block, block.failed, block.failed + block.passed);
    table.columns = {"drawn input",  "failed above passed", "interval",      "failed, lowest third",
                     "middle third", "highest third",       "drives failure"};
    const auto share = [](const SuccessRate& rate) {
        constexpr double to_percent = 100.0;
        return fmt::format("{:.1f} %", to_percent * rate.share());
    };
    for (const DrivingInput& one : block.inputs) {
        table.rows.push_back({one.input, fmt::format("{:.2f}", one.failed_above_passed.probability),
                              fmt::format("{:.2f} to {:.2f}", one.failed_above_passed.lowest,
                                          one.failed_above_passed.highest),
                              share(one.failed_by_third[0]), share(one.failed_by_third[1]),
                              share(one.failed_by_third[2]), one.drives() ? "yes" : "no"});
    }
    return table;
}

Section drivers_section(const CampaignResults& results) {
    Section section{"What drives failure", {}, ""};
    for (const BlockDrivers& block : failure_drivers(results)) {
        for (const std::string& sentence : driver_sentences(block)) {
            section.parts.emplace_back(Paragraph{block.block + ": " + sentence});
        }
        if (!block.inputs.empty()) {
            section.parts.emplace_back(drivers_table(block));
        }
    }
    return section;
}

Histogram histogram_of(const FigureDistribution& one) {
    Histogram histogram;
    histogram.title = one.figure;
    histogram.words = fmt::format(
        "{} starts: median {}, nine in ten from {} to {}, all from {} to {}{}", one.starts,
        figure_words(one.median), figure_words(one.low_5_percent), figure_words(one.high_5_percent),
        figure_words(one.lowest), figure_words(one.highest),
        one.without > 0 ? fmt::format("; {} have none", one.without) : "");
    histogram.from = one.bins_from;
    histogram.width = one.bin_width;
    for (const FigureDistribution::Bin& bin : one.bins) {
        histogram.bars.push_back({bin.passed, bin.failed});
    }
    return histogram;
}

Section distributions_section(const CampaignResults& results) {
    Histograms histograms{"as expected", "not as expected", {}};
    for (const FigureDistribution& one : figure_distributions(results)) {
        histograms.histograms.push_back(histogram_of(one));
    }
    return {"How the figures are spread", {std::move(histograms)}, ""};
}

void add_maps(Page& page, const std::string& heading, std::vector<HeatMap> maps) {
    if (maps.empty()) {
        return;
    }
    Section section{heading, {}, ""};
    for (HeatMap& map : maps) {
        section.parts.emplace_back(std::move(map));
    }
    page.sections.push_back(std::move(section));
}

}  // namespace

Page campaign_page(const CampaignResults& results) {
    const CampaignSummary summary = summary_of(results);
    const CampaignRow& campaign = results.campaign;
    Page page;
    page.title = campaign.title.empty() ? campaign.suite : campaign.title;
    page.lead = campaign_verdict(results);
    Section beware{"Beware", {}, ""};
    for (const std::string& warning : campaign_warnings(results, summary)) {
        beware.parts.emplace_back(Notice{warning});
    }
    if (!beware.parts.empty()) {
        page.sections.push_back(std::move(beware));
    }
    add_maps(page, "Where it works", rate_maps(results));
    page.sections.push_back(rates_section(results, summary));
    if (!summary.broken.empty()) {
        page.sections.push_back(broken_section(summary, results));
        page.sections.push_back(worst_section(summary, results));
    }
    page.sections.push_back(drivers_section(results));
    add_maps(page, "What it costs", figure_maps(results));
    page.sections.push_back(distributions_section(results));
    page.sections.push_back(
        {"What it comes from",
         {Paragraph{fmt::format("Suite {}, {}; build {}; {} starts in {} cases.", campaign.suite,
                                campaign.suite_hash, campaign.build, summary.starts,
                                summary.cases.trials)}},
         ""});
    return page;
}

}  // namespace sim
