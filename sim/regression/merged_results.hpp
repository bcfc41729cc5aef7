// The results of all shards of a campaign as one file, the same to the byte as if one machine had
// run the whole.
#pragma once

#include <string>
#include <vector>

#include "sim/regression/case_record.hpp"

namespace sim {

/// In any order. Throws InputError, naming the file, for shards that do not belong together, are
/// given twice, are missing or are not finished; OutputError if `target` cannot be written.
/// Returns the campaign as it is written.
CampaignRow merge_results(const std::vector<std::string>& shards, const std::string& target);

}  // namespace sim
