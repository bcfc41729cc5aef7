#include "sim/results/size_cost_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/results/spaced_word.hpp"
#include "sim/results/wrapped_text.hpp"

namespace sim {

namespace {

std::string row(const SizeReport& report, const SmallestSupply& smallest) {
    const std::string way = spaced(std::string(word_of(smallest.way)));
    if (!smallest.index) {
        return fmt::format("  {:<16}none that is listed\n", way);
    }
    const SupplyAtHand& supply = report.findings.supplies[*smallest.index].supply;
    const IdleCost& idle = smallest.cost.idle;
    return fmt::format("  {:<16}{:<36}{:>7.0f}{:>6.0f}{:>5.0f}{}{:>6.0f}{:>6.2f}{:>6.1f}{:>7.0f}\n",
                       way, supply.name, smallest.cost.supply, smallest.cost.start_aid, idle.draw_W,
                       idle.draw_is_assumed ? "*" : " ", idle.energy_kWh_per_year, idle.panel_kWp,
                       idle.storage_kWh, smallest.cost.total());
}

/// What the limiter saves or costs against the cheapest other way.
std::string comparison(const SizeReport& report) {
    const SmallestSupply& limited =
        report.decision.smallest.at(static_cast<std::size_t>(Way::limiter));
    const SmallestSupply* other = nullptr;
    for (const SmallestSupply& one : report.decision.smallest) {
        if (one.way != Way::limiter && one.index &&
            (other == nullptr || one.cost.total() < other->cost.total())) {
            other = &one;
        }
    }
    if (!limited.index || other == nullptr) {
        return "";
    }
    const double less = other->cost.total() - limited.cost.total();
    const double idle_less_kWh =
        other->cost.idle.energy_kWh_per_year - limited.cost.idle.energy_kWh_per_year;
    return wrapped(
        "  ", "  ",
        fmt::format("The limiter's smallest supply costs {:.0f} {} {} over {:g} years than the "
                    "cheapest other way ({}), and idles {:.0f} kWh a year {}.",
                    std::abs(less), report.costs.currency, less >= 0.0 ? "less" : "more",
                    report.costs.years, spaced(std::string(word_of(other->way))),
                    std::abs(idle_less_kWh), idle_less_kWh >= 0.0 ? "less" : "more"));
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
        "  Smallest supply for each way, and what it costs over {:g} years, in {}{}\n\n"
        "  {:<16}{:<36}{:>7}{:>6}{:>6}{:>6}{:>6}{:>6}{:>7}\n",
        costs.years, costs.currency,
        report.costs_are_examples ? " (EXAMPLE prices, not quotations)" : "", "WAY", "SUPPLY",
        "SUPPLY", "AID", "IDLE W", "kWh/a", "kWp", "kWh", "TOTAL");
    bool any_assumed = false;
    for (const SmallestSupply& smallest : report.decision.smallest) {
        text += row(report, smallest);
        any_assumed = any_assumed || (smallest.index && smallest.cost.idle.draw_is_assumed);
    }
    if (any_assumed) {
        text += fmt::format("  * not given; {:g} % of the rating\n", costs.idle_draw_percent);
    }
    text += comparison(report);
    text += wrapped(
        "  ", "  ",
        costs.idle_energy_is_bought()
            ? fmt::format("IDLE: what the inverter draws while nothing runs, {:g} h a day, bought "
                          "at {:g} {} per kWh.",
                          costs.idle_hours_per_day, costs.energy_price_per_kWh, costs.currency)
            : fmt::format("IDLE: what the inverter draws while nothing runs, {:g} h a day; kWp and "
                          "kWh: the panels and the battery that this alone takes, at {:g} sun "
                          "hours a day, {:g} % yield, {:g} h from a battery of which {:g} % is "
                          "used.",
                          costs.idle_hours_per_day, costs.sun_hours_per_day,
                          costs.panel_yield_percent, costs.storage_hours_per_day,
                          costs.storage_depth_percent));
    text += wrapped("  ", "  ",
                    "Smallest: least rated power among the supplies listed on which the way is "
                    "good enough and whose rating carries the running compressor; the utility "
                    "costs nothing here. Fuel, interest and what the compressor itself uses are "
                    "left out.");
    return text;
}

}  // namespace sim
