#include "sim/results/size_cost_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <utility>

#include "sim/results/spaced_word.hpp"
#include "sim/results/wrapped_text.hpp"

namespace sim {

namespace {

constexpr int way_width = 16;
constexpr int name_width = 36;

std::string no_supply(const std::string& way, SupplyRole role) {
    return fmt::format("  {:<{}}none of the {} listed\n", way, way_width,
                       role == SupplyRole::storage ? "inverters" : "generators");
}

/// For any way.
bool is_any_good(const SizeReport& report, SupplyRole role) {
    return std::any_of(report.decision.smallest.begin(), report.decision.smallest.end(),
                       [role](const SmallestSupply& one) { return one.role == role && one.index; });
}

std::string row(const SizeReport& report, const SmallestSupply& smallest) {
    const std::string way = spaced(std::string(word_of(smallest.way)));
    if (!smallest.index) {
        return no_supply(way, smallest.role);
    }
    const SupplyAtHand& supply = report.findings.supplies[*smallest.index].supply;
    const IdleCost& idle = smallest.cost.idle;
    return fmt::format("  {:<{}}{:<{}}{:>7.0f}{:>6.0f}{:>6.0f}{}{:>7.0f}{:>6.2f}{:>5.1f}{:>8.0f}\n",
                       way, way_width, supply.name, name_width, smallest.cost.supply,
                       smallest.cost.start_aid, idle.draw_W, idle.draw_is_assumed ? "*" : " ",
                       idle.energy_kWh_per_year, idle.panel_kWp, idle.storage_kWh,
                       smallest.cost.total());
}

/// What the limiter saves or costs against the cheapest other way, among inverters.
std::string comparison(const SizeReport& report) {
    const SmallestSupply* limited = report.decision.smallest_for(SupplyRole::storage, Way::limiter);
    const SmallestSupply* other = nullptr;
    for (const SmallestSupply& one : report.decision.smallest) {
        if (one.role == SupplyRole::storage && one.way != Way::limiter && one.index &&
            (other == nullptr || one.cost.total() < other->cost.total())) {
            other = &one;
        }
    }
    if (limited == nullptr || !limited->index || other == nullptr) {
        return "";
    }
    const double less = other->cost.total() - limited->cost.total();
    const double idle_less_kWh =
        other->cost.idle.energy_kWh_per_year - limited->cost.idle.energy_kWh_per_year;
    const std::string idle_words =
        std::abs(idle_less_kWh) < 1.0
            ? std::string("idles as much")
            : fmt::format("idles {:.0f} kWh a year {}", std::abs(idle_less_kWh),
                          idle_less_kWh > 0.0 ? "less" : "more");
    return fmt::format(
        "Of the inverters, the limiter's costs {:.0f} {} {} over {:g} years than the "
        "cheapest other way's ({}), and {}.",
        std::abs(less), report.costs.currency, less >= 0.0 ? "less" : "more", report.costs.years,
        spaced(std::string(word_of(other->way))), idle_words);
}

}  // namespace

std::string size_cost_text(const SizeReport& report) {
    const bool only_utilities = std::all_of(
        report.findings.supplies.begin(), report.findings.supplies.end(),
        [](const SupplyFindings& on) { return on.supply.role() == SupplyRole::utility; });
    if (only_utilities) {
        return "";
    }
    const CostAssumptions& costs = report.costs;
    std::string text = fmt::format(
        "  Smallest supply for each way, and its cost over {:g} years in {}{}\n\n"
        "  {:<{}}{:<{}}{:>7}{:>6}{:>7}{:>7}{:>6}{:>5}{:>8}\n",
        costs.years, costs.currency,
        report.costs_are_examples ? " (EXAMPLE prices, no quotation)"
                                  : " (what the file leaves out: EXAMPLES)",
        "WAY", way_width, "SUPPLY", name_width, "SUPPLY", "AID", "IDLE W", "kWh/a", "kWp", "kWh",
        "TOTAL");
    bool any_assumed = false;
    for (const SmallestSupply& smallest : report.decision.smallest) {
        if (is_any_good(report, smallest.role)) {
            text += row(report, smallest);
        } else if (smallest.way == every_way.front()) {
            text += no_supply("any", smallest.role);
        }
        any_assumed = any_assumed || (smallest.index && smallest.cost.idle.draw_is_assumed);
    }
    if (any_assumed) {
        text += fmt::format("  * not given; {:g} % of the rating\n", costs.idle_draw_percent);
    }
    text += "\n";
    for (const std::string& sentence : size_cost_sentences(report)) {
        text += wrapped("  ", "  ", sentence);
    }
    return text;
}

std::vector<std::string> size_cost_sentences(const SizeReport& report) {
    const CostAssumptions& costs = report.costs;
    std::vector<std::string> sentences;
    if (std::string compared = comparison(report); !compared.empty()) {
        sentences.push_back(std::move(compared));
    }
    sentences.push_back(
        costs.idle_energy_is_bought()
            ? fmt::format("Idle: what the inverter draws while nothing runs, {:g} h a day, bought "
                          "at {:g} {} per kWh.",
                          costs.idle_hours_per_day, costs.energy_price_per_kWh, costs.currency)
            : fmt::format("Idle: what the inverter draws while nothing runs, {:g} h a day; kWp and "
                          "kWh: the panels and the battery that this alone takes, at {:g} sun "
                          "hours a day, {:g} % yield, {:g} h from a battery of which {:g} % is "
                          "used.",
                          costs.idle_hours_per_day, costs.sun_hours_per_day,
                          costs.panel_yield_percent, costs.storage_hours_per_day,
                          costs.storage_depth_percent));
    sentences.emplace_back(
        "Smallest: least rated power among the supplies listed on which the way is sure enough and "
        "whose rating carries the running compressor; the utility costs nothing here. Fuel, "
        "interest and what the compressor itself uses are left out.");
    return sentences;
}

}  // namespace sim
