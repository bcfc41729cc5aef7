// Runs the starts behind a sizing: first the normal day of every supply and way, then, of those
// that came up, the bad days.
//
// A way that fails on the normal day gets no bad days: they only make it worse. Same unit,
// supplies, draws and seed: same findings, at any number of threads.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/campaigns/parallel_cases.hpp"
#include "sim/sizing/sizing_result.hpp"

namespace sim {

struct SizingPlan {
    int draws = 200;  ///< bad days for each supply and way
    std::uint32_t seed = 1;
    int threads = 1;
};

/// The conditions of `unit` are its normal day. `progress` may be empty; false from it ends the
/// work, and what is finished stands. Throws NumericFailure.
SizingFindings run_sizing(const Scenario& unit, const std::vector<SupplyAtHand>& supplies,
                          const SizingPlan& plan, const CampaignProgress& progress = {});

/// One start of a scenario, watched until it is decided.
OneStart decided_start_of(const Scenario& scenario);

}  // namespace sim
