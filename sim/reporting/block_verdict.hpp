// Whether a block of the suite is as it was asked to be.
//
// A block without a required rate fails with its first start that did not pass. In a block that
// answers for a rate, a start that only ended otherwise than accepted counts against the rate; a
// broken monitor, a broken limit, or an end without a result fails the block all the same.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "sim/reporting/campaign_results.hpp"

namespace sim {

struct BlockVerdict {
    std::string block;
    std::int64_t starts = 0;
    std::int64_t failed = 0;  ///< starts that fail the block by themselves
    std::int64_t missed = 0;  ///< starts that count against the rate
    std::optional<double> success_at_least_percent;
    /// Not in a shard, which is too small a sample of it.
    bool rate_is_judged = true;

    bool answers_for_rate() const { return rate_is_judged && success_at_least_percent; }
    double success_percent() const;  ///< starts that ended as accepted; 0 without starts
    bool rate_met() const;           ///< true without a required rate that is judged
    bool passed() const { return failed == 0 && rate_met(); }
};

/// In the order of the suite.
std::vector<BlockVerdict> block_verdicts(const CampaignResults& results);

/// Everything is there, and every block passed.
bool campaign_passed(const CampaignResults& results);

/// The rate that a block answers for; none if it does not.
std::optional<double> required_rate_percent(const CampaignResults& results,
                                            const std::string& block);

}  // namespace sim
