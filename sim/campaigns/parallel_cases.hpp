// Many cases on several threads. Each case is known by its number and writes only to what belongs
// to that number, so the results are the same at any number of threads.
#pragma once

#include <cstddef>
#include <functional>

namespace sim {

/// Reports how many cases are done; false stops the work after those that are under way.
using CampaignProgress = std::function<bool(int done, int of)>;

/// Runs `run_case(0)` to `run_case(count - 1)`, begun in this order. `progress` may be empty; it is
/// called from one thread at a time. Returns false if it was stopped. What a case throws ends the
/// work and is thrown on.
bool run_cases(std::size_t count, int threads, const std::function<void(std::size_t)>& run_case,
               const CampaignProgress& progress);

}  // namespace sim
