// Every single fault at every instant of a start, for several units: what each came to, what the
// controller gave as its reason, which monitors broke, and how hot the windings became.
//
// The same units and plan give the same result at any number of threads.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "sim/campaigns/parallel_cases.hpp"
#include "sim/scenario/scenario.hpp"

namespace sim {

struct FaultCampaignPlan {
    double every_s = 0.010;  ///< from one instant to the next; above 0
    double until_s = 1.2;    ///< the last instant; faults begin from 0 on
    double offset_s = 0.0;   ///< of every instant
    int threads = 1;
    std::string only;  ///< faults whose name begins so; empty: all
};

/// Where something was at its worst.
struct WorstCase {
    double value = 0.0;
    std::string unit;  ///< the scenario's name
    double at_s = 0.0;
};

struct FaultCampaignRow {
    std::string fault;
    int runs = 0;
    std::map<std::string, int> outcomes;  ///< with the cause: "resting (no_motor)"
    std::map<std::string, int> monitors;  ///< broken ones
    /// One case of each of these monitors.
    std::map<std::string, WorstCase> where_broken;
    /// Runs that the controller let go of at or after the fault's beginning.
    int let_go = 0;
    WorstCase slowest_reaction_s;  ///< of those, from the fault's beginning
    WorstCase hottest_winding_C;
    WorstCase worst_closure;
};

struct CampaignResult {
    std::vector<std::string> units;
    std::vector<FaultCampaignRow> rows;
    int runs = 0;
    int instants = 0;
    /// Runs in which a monitor was broken.
    int runs_with_broken_monitors = 0;
};

/// Every scenario must have a limiter. `progress` may be empty; it is called from one thread at a
/// time. Throws NumericFailure.
CampaignResult run_fault_campaign(const std::vector<Scenario>& units, const FaultCampaignPlan& plan,
                                  const CampaignProgress& progress = {});

}  // namespace sim
