// Runs a suite, or a shard of it, into a results file.
//
// Cases run in the order of CaseOrder on as many worker processes as wanted. The file's bytes
// follow from suite, build, shard and `until` alone: not from the number of workers, nor from how
// often the campaign was interrupted and gone on with.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>

#include "sim/regression/case_order.hpp"
#include "sim/regression/worker_pool.hpp"
#include "sim/regression/working_results.hpp"

namespace sim {

struct RegressPlan {
    std::string results;
    int jobs = 1;
    Shard shard;
    ExistingFile existing = ExistingFile::refuse;
    /// Enough when the 95 % interval of the share of passed cases is no wider than this, 0 to 1.
    /// Asked only when the next `until_batch` cases of the order are all done, so that it does not
    /// depend on which of them happens to be done first. Only for a whole suite.
    std::optional<double> until_width;
    CaseBudget budget;
};

inline constexpr std::int64_t until_batch = 100;

/// Cases done of those of this shard; false: stop, keep what is done.
using CampaignWatch = std::function<bool(std::int64_t done, std::int64_t of, std::int64_t failed)>;

/// Returns whether it was run to its end; the file is finished then. Throws InputError,
/// OutputError, and std::runtime_error if no worker can be made.
bool run_campaign(const Suite& suite, const RegressPlan& plan, const CampaignWatch& watch);

}  // namespace sim
