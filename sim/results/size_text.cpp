#include "sim/results/size_text.hpp"

#include <fmt/format.h>

#include <vector>

#include "sim/results/cautions.hpp"
#include "sim/results/size_cost_text.hpp"
#include "sim/results/size_words.hpp"
#include "sim/results/wrapped_text.hpp"
#include "sim/sizing/site_checks.hpp"

namespace sim {

namespace {

constexpr int name_width = 37;
constexpr int rating_width = 5;
constexpr int cell_width = 13;
constexpr int way_width = 17;

std::string trimmed(std::string line) {
    return line.erase(line.find_last_not_of(' ') + 1) + "\n";
}

std::string rows_of(const SupplyFindings& on, const SupplyDecision& decision) {
    const std::optional<double> rated_VA = on.supply.rated_VA();
    std::string first =
        fmt::format("  {:<{}}{:>{}}  ", on.supply.name, name_width - 2,
                    rated_VA ? fmt::format("{:.1f}", 1e-3 * *rated_VA) : "-", rating_width);
    std::string second =
        fmt::format("    {:<{}}  ", words_for(decision), name_width - 4 + rating_width);
    std::string third =
        fmt::format("    {:<{}}  ", "voltage falls to", name_width - 4 + rating_width);
    for (const WayOnSupply& way : on.ways) {
        third += fmt::format("{:<{}}", voltage_words(on.supply, way), cell_width);
        first += fmt::format("{:<{}}", normal_day_words(way), cell_width);
        second += fmt::format("{:<{}}", bad_days_words(way), cell_width);
    }
    return trimmed(first) + trimmed(second) + trimmed(third);
}

std::string table(const SizeReport& report) {
    std::string text = trimmed(fmt::format(
        "  {:<{}}{:>{}}  {:<{}}{:<{}}{:<{}}{}", "SUPPLY", name_width - 2, "kVA", rating_width,
        "DIRECTLY", cell_width, "THERMISTOR", cell_width, "CAPAC.+RELAY", cell_width, "LIMITER"));
    for (std::size_t k = 0; k < report.findings.supplies.size(); ++k) {
        text += rows_of(report.findings.supplies[k], report.decision.supplies[k]);
    }
    return text;
}

std::string lost_lines(const SizeReport& report) {
    std::string text;
    for (const LostDays& row : lost_days(report)) {
        text += fmt::format("  {:<{}}{:<{}}{}\n", row.supply, name_width, row.way, way_width,
                            row.words);
    }
    return text.empty() ? "" : "\n  Bad days that were lost, and how they ended\n" + text;
}

std::string sentences(std::string_view first, std::string_view others,
                      const std::vector<std::string>& all) {
    std::string text;
    for (const std::string& sentence : all) {
        text += wrapped(first, others, sentence);
    }
    return text;
}

}  // namespace

std::string size_text(const SizeReport& report) {
    std::string text =
        report.sized.unit.title + "\n\n" + sentences("  ", "    ", answer_sentences(report)) +
        sentences("  Beware: ", "    ", size_warnings(report)) + "\n" + table(report) +
        lost_lines(report) + "\n" + sentences("  ", "  ", rule_sentences(report)) + "\n";
    const std::string costs = size_cost_text(report);
    if (!costs.empty()) {
        text += costs + "\n";
    }
    return text + "  On site\n" + sentences("  - ", "    ", site_checks(report)) + "\n" + cautions +
           fitting_cautions;
}

std::string size_verdict(const SizeReport& report) {
    std::vector<std::string> answers;
    for (std::size_t k = 0; k < report.findings.supplies.size(); ++k) {
        answers.push_back(fmt::format("{} {}", report.findings.supplies[k].supply.name,
                                      words_for(report.decision.supplies[k])));
    }
    return fmt::format("{}: {}{}\n", report.sized.unit.name, fmt::join(answers, "; "),
                       report.findings.ended_early ? " (ended early)" : "");
}

std::string variable_speed_text(const std::string& unit_title) {
    return unit_title + "\n\n" +
           wrapped("  ", "  ",
                   "No limiter is needed, nor may one be fitted: the compressor has a "
                   "variable-speed drive of its own, which ramps it by itself. What a supply must "
                   "carry is the drive's running current and the charging of its capacitors; no "
                   "start was simulated.") +
           "\n" + cautions;
}

}  // namespace sim
