#include "sim/campaigns/fault_campaign.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>

#include "sim/bench/start_run.hpp"
#include "sim/campaigns/single_faults.hpp"

namespace sim {

namespace {

struct Case {
    const Scenario* unit;
    SingleFault single;
    double at_s;
};

/// What is kept of a run.
struct Ending {
    std::string outcome;
    std::vector<std::string> monitors;
    std::optional<double> reaction_s;
    double hottest_winding_C = 0.0;
    double closure = 0.0;
};

std::vector<Case> all_cases(const std::vector<Scenario>& units, const FaultCampaignPlan& plan,
                            int instants) {
    std::vector<Case> cases;
    for (const Scenario& unit : units) {
        for (const SingleFault& single : single_faults(unit)) {
            if (single.name.compare(0, plan.only.size(), plan.only) != 0) {
                continue;
            }
            for (int k = 0; k < (single.only_from_the_beginning ? 1 : instants); ++k) {
                const double at_s =
                    single.only_from_the_beginning ? 0.0 : plan.offset_s + k * plan.every_s;
                cases.push_back({&unit, single, at_s});
            }
        }
    }
    return cases;
}

Ending run_case(const Case& one) {
    Scenario scenario = *one.unit;
    Fault fault = one.single.fault;
    fault.timing.at_s = one.at_s;
    scenario.faults.push_back(fault);
    const StartResult result = run_start(scenario);
    Ending ending;
    ending.outcome = std::string(word_of(result.outcome));
    if (!result.cause.empty()) {
        ending.outcome += " (" + result.cause + ")";
    }
    for (const NamedViolation& broken : result.monitors) {
        ending.monitors.emplace_back(broken.monitor);
    }
    bool fed = false;
    for (const ControllerStep& step : result.controller_steps) {
        const bool feeds = firmware::feeds_motor(step.state);
        if (fed && !feeds && step.time_s >= one.at_s && !ending.reaction_s) {
            ending.reaction_s = step.time_s - one.at_s;
        }
        fed = feeds;
    }
    ending.hottest_winding_C = result.hottest_winding_C;
    ending.closure = result.energy.closure();
    return ending;
}

void keep_worst(WorstCase& worst, double value, const Case& one) {
    if (worst.unit.empty() || value > worst.value) {
        worst = {value, one.unit->name, one.at_s};
    }
}

void add_to_row(FaultCampaignRow& row, const Case& one, const Ending& ending) {
    ++row.runs;
    ++row.outcomes[ending.outcome];
    for (const std::string& monitor : ending.monitors) {
        ++row.monitors[monitor];
        row.where_broken.try_emplace(monitor, WorstCase{0.0, one.unit->name, one.at_s});
    }
    if (ending.reaction_s) {
        ++row.let_go;
        keep_worst(row.slowest_reaction_s, *ending.reaction_s, one);
    }
    keep_worst(row.hottest_winding_C, ending.hottest_winding_C, one);
    keep_worst(row.worst_closure, ending.closure, one);
}

}  // namespace

CampaignResult run_fault_campaign(const std::vector<Scenario>& units, const FaultCampaignPlan& plan,
                                  const CampaignProgress& progress) {
    CampaignResult result;
    result.instants = 1 + static_cast<int>(std::floor(plan.until_s / plan.every_s + 1e-9));
    for (const Scenario& unit : units) {
        result.units.push_back(unit.name);
    }
    const std::vector<Case> cases = all_cases(units, plan, result.instants);
    std::vector<std::optional<Ending>> endings(cases.size());
    run_cases(
        cases.size(), plan.threads, [&](std::size_t k) { endings[k] = run_case(cases[k]); },
        progress);
    for (std::size_t k = 0; k < cases.size(); ++k) {
        const std::optional<Ending>& ending = endings[k];
        if (!ending) {
            continue;
        }
        const std::string& name = cases[k].single.name;
        auto row = std::find_if(result.rows.begin(), result.rows.end(),
                                [&name](const FaultCampaignRow& one) { return one.fault == name; });
        if (row == result.rows.end()) {
            row = result.rows.insert(row, FaultCampaignRow{});
            row->fault = name;
        }
        add_to_row(*row, cases[k], *ending);
        ++result.runs;
        result.runs_with_broken_monitors += ending->monitors.empty() ? 0 : 1;
    }
    return result;
}

}  // namespace sim
