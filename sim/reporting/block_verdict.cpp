#include "sim/reporting/block_verdict.hpp"

#include <algorithm>
#include <map>

namespace sim {

namespace {

bool broke_outcome(const StartRow& start) {
    return has_no_result(start) ||
           std::any_of(start.broken.begin(), start.broken.end(),
                       [](const BrokenRequirement& one) { return one.requirement == "outcome"; });
}

}  // namespace

double BlockVerdict::success_percent() const {
    constexpr double to_percent = 100.0;
    return starts == 0
               ? 0.0
               : to_percent * static_cast<double>(starts - missed) / static_cast<double>(starts);
}

bool BlockVerdict::rate_met() const {
    return !success_at_least_percent || success_percent() >= *success_at_least_percent;
}

bool only_counts_against_rate(const StartRow& start) {
    return !start.passed && !has_no_result(start) && start.broken.size() == 1 &&
           broke_outcome(start);
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
            blocks.push_back(
                {one.place.block, 0, 0, 0, required_rate_percent(results, one.place.block)});
        }
        BlockVerdict& block = blocks[at->second];
        for (const StartRow& start : one.starts) {
            ++block.starts;
            if (block.success_at_least_percent && broke_outcome(start)) {
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
