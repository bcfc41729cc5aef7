#include "sim/pages/size_page.hpp"

#include <fmt/format.h>

#include <utility>

#include "sim/results/cautions.hpp"
#include "sim/results/size_cost_text.hpp"
#include "sim/results/size_words.hpp"
#include "sim/results/spaced_word.hpp"
#include "sim/sizing/bad_day.hpp"
#include "sim/sizing/site_checks.hpp"

namespace sim {

namespace {

std::vector<PagePart> paragraphs(const std::vector<std::string>& sentences) {
    std::vector<PagePart> parts;
    parts.reserve(sentences.size());
    for (const std::string& sentence : sentences) {
        parts.emplace_back(Paragraph{sentence});
    }
    return parts;
}

std::string cell_of(const SupplyAtHand& supply, const WayOnSupply& way) {
    const std::string voltage = voltage_words(supply, way);
    const std::string bad_days = bad_days_words(way);
    return normal_day_words(way) + (bad_days.empty() ? "" : "; " + bad_days + " %") +
           (voltage.empty() ? "" : "; voltage to " + voltage);
}

Table lost_table(const SizeReport& report) {
    Table table;
    table.caption = "Bad days that were lost, and how they ended";
    table.columns = {"supply", "way", "lost"};
    for (const LostDays& row : lost_days(report)) {
        table.rows.push_back({row.supply, row.way, row.words});
    }
    return table;
}

Table bad_day_table() {
    Table table;
    table.caption = "A bad day: each figure is drawn evenly between its two ends.";
    table.columns = {"figure", "from", "to", "what it is", "where that is from"};
    for (const BadDayFigure& figure : bad_day_figures()) {
        table.rows.push_back({std::string(figure.name), fmt::format("{:g}", figure.lowest),
                              fmt::format("{:g}", figure.highest), std::string(figure.meaning),
                              std::string(figure.origin)});
    }
    return table;
}

}  // namespace

Table supply_table(const SizeReport& report) {
    Table table;
    table.caption =
        "Each cell: the normal day with the clamp's reading; bad days with their interval; how "
        "far the voltage falls on the normal day.";
    table.columns = {"supply", "kVA", "answer"};
    for (const Way way : every_way) {
        table.columns.push_back(spaced(std::string(word_of(way))));
    }
    for (std::size_t k = 0; k < report.findings.supplies.size(); ++k) {
        const SupplyFindings& on = report.findings.supplies[k];
        const std::optional<double> rated_VA = on.supply.rated_VA();
        std::vector<std::string> row = {on.supply.name,
                                        rated_VA ? fmt::format("{:.1f}", 1e-3 * *rated_VA) : "-",
                                        words_for(report.decision.supplies[k])};
        for (const WayOnSupply& way : on.ways) {
            row.push_back(cell_of(on.supply, way));
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

Table cost_table(const SizeReport& report) {
    Table table;
    table.caption = fmt::format("The smallest supply for each way, over {:g} years, in {}{}.",
                                report.costs.years, report.costs.currency,
                                report.costs_are_examples
                                    ? "; example prices, not quotations"
                                    : "; what the file of prices leaves out is an example");
    table.columns = {"way",   "smallest supply", "supply",       "start aid", "idle, W",
                     "kWh/a", "panels, kWp",     "battery, kWh", "total"};
    for (const SmallestSupply& one : report.decision.smallest) {
        const std::string way = spaced(std::string(word_of(one.way)));
        if (!one.index) {
            table.rows.push_back({way,
                                  one.role == SupplyRole::storage ? "none of the inverters listed"
                                                                  : "none of the generators listed",
                                  "-", "-", "-", "-", "-", "-", "-"});
            continue;
        }
        const IdleCost& idle = one.cost.idle;
        table.rows.push_back(
            {way, report.findings.supplies[*one.index].supply.name,
             fmt::format("{:.0f}", one.cost.supply), fmt::format("{:.0f}", one.cost.start_aid),
             fmt::format("{:.0f}{}", idle.draw_W, idle.draw_is_assumed ? " (assumed)" : ""),
             fmt::format("{:.0f}", idle.energy_kWh_per_year), fmt::format("{:.2f}", idle.panel_kWp),
             fmt::format("{:.1f}", idle.storage_kWh), fmt::format("{:.0f}", one.cost.total())});
    }
    return table;
}

Page size_page(const SizeReport& report) {
    Page page;
    page.title = report.sized.unit.title;
    page.sections.push_back({"The answer", paragraphs(answer_sentences(report)), ""});
    const std::vector<std::string> warnings = size_warnings(report);
    if (!warnings.empty()) {
        Section beware{"Beware", {}, ""};
        for (const std::string& warning : warnings) {
            beware.parts.push_back(Notice{warning});
        }
        page.sections.push_back(std::move(beware));
    }
    page.sections.push_back({"Supplies and ways to start", {supply_table(report)}, ""});
    if (const Table lost = lost_table(report); !lost.rows.empty()) {
        page.sections.push_back({"", {lost}, ""});
    }
    if (!report.decision.smallest.empty()) {
        Section costs{"What each way costs", {cost_table(report)}, ""};
        for (const std::string& sentence : size_cost_sentences(report)) {
            costs.parts.push_back(Paragraph{sentence});
        }
        page.sections.push_back(std::move(costs));
    }
    page.sections.push_back({"On site", paragraphs(site_checks(report)), ""});
    page.sections.back().parts.push_back(Notice{fitting_cautions});
    std::vector<PagePart> rules = paragraphs(rule_sentences(report));
    rules.push_back(bad_day_table());
    page.sections.push_back({"What the figures mean", std::move(rules), ""});
    return page;
}

}  // namespace sim
