#include "sim/reporting/block_verdict.hpp"

#include <algorithm>
#include <map>

#include "sim/regression/start_failures.hpp"

namespace sim {

double BlockVerdict::success_percent() const {
    constexpr double to_percent = 100.0;
    return starts == 0
               ? 0.0
               : to_percent * static_cast<double>(starts - missed) / static_cast<double>(starts);
}

bool BlockVerdict::rate_met() const {
    return !answers_for_rate() || success_percent() >= *success_at_least_percent;
}

std::optional<double> required_rate_percent(const CampaignResults& results,
                                            const std::string& block) {
    const auto found =
        std::find_if(results.rates.begin(), results.rates.end(),
                     [&block](const RateRequirement& one) { return one.block == block; });
    return found == results.rates.end() ? std::nullopt
                                        : std::optional<double>(found->success_at_least_percent);
}

std::vector<BlockVerdict> block_verdicts(const CampaignResults& results) {
    std::vector<BlockVerdict> blocks;
    std::map<std::string, std::size_t> place;
    for (const CaseRecord& one : results.cases) {
        const auto [at, is_new] = place.try_emplace(one.place.block, blocks.size());
        if (is_new) {
            blocks.push_back({one.place.block, 0, 0, 0,
                              required_rate_percent(results, one.place.block),
                              results.campaign.shard_total == 1});
        }
        BlockVerdict& block = blocks[at->second];
        for (const StartRow& start : one.starts) {
            ++block.starts;
            if (block.success_at_least_percent && ended_otherwise(start)) {
                ++block.missed;
            }
            if (!start.passed &&
                !(block.success_at_least_percent && only_counts_against_rate(start))) {
                ++block.failed;
            }
        }
    }
    return blocks;
}

bool campaign_passed(const CampaignResults& results) {
    const std::vector<BlockVerdict> blocks = block_verdicts(results);
    return results.campaign.finished &&
           std::all_of(blocks.begin(), blocks.end(),
                       [](const BlockVerdict& one) { return one.passed(); });
}

}  // namespace sim
