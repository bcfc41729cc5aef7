// What a results file says in a few numbers: how many passed, of which block, and what the others
// broke.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "sim/regression/results_reader.hpp"
#include "sim/statistics/success_rate.hpp"

namespace sim {

struct BlockSummary {
    std::string block;
    /// Of its cases; a series counts once, for its starts are not independent of each other.
    SuccessRate passed;
    int starts = 0;
    int accepted = 0;  ///< starts that ended in an outcome that is accepted
    /// The share of `starts` that must be `accepted`; none: every case must pass.
    std::optional<double> least_accepted_percent;
    /// Not in a shard, which is too small a sample of it.
    bool rate_is_judged = true;
    /// Cases that fail the campaign: those not passed, but for what the rate answers for.
    int failures = 0;

    double accepted_percent() const { return starts == 0 ? 0.0 : 100.0 * accepted / starts; }
    bool holds() const {
        return failures == 0 && (!rate_is_judged || !least_accepted_percent ||
                                 accepted_percent() >= *least_accepted_percent);
    }
};

/// One requirement that was broken, over the whole campaign.
struct BrokenSummary {
    std::string requirement;
    int starts = 0;
    std::int64_t first_case = 0;
    std::string first_words;
};

/// A case that did not pass, for the list of the first ones.
struct FailedCase {
    std::int64_t id = 0;
    CasePlace place;
    bool is_series = false;
    int start = 1;  ///< the first one of it that did not pass
    std::string requirement;
    std::string words;
};

struct RegressSummary {
    CampaignRow campaign;
    std::int64_t share = 0;  ///< cases of the suite that are this file's, a shard's or all
    SuccessRate passed;      ///< over all cases
    int starts = 0;
    std::vector<BlockSummary> blocks;   ///< in the suite's order
    std::vector<BrokenSummary> broken;  ///< the most frequent first
    std::vector<FailedCase> first_failed;

    bool as_expected() const;
};

inline constexpr std::size_t most_listed_failures = 5;

/// `suite` is the one that the file was made from.
RegressSummary summarize(const ResultsReader& results, const Suite& suite);

}  // namespace sim
