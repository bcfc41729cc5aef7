// A campaign in numbers: how many passed, where, why the others did not, and which were the worst.
//
// The starts of one series are not independent of one another, so rates and their intervals count
// cases; a case passes if all of its starts do.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "sim/reporting/campaign_results.hpp"
#include "sim/statistics/success_rate.hpp"

namespace sim {

struct NamedRate {
    std::string name;
    SuccessRate cases;
};

/// The rates of every value that a side of the matrix has, in the order of the suite.
struct SideRates {
    std::string side;
    std::vector<NamedRate> rates;
};

/// What was not held, how often, and the first case where.
struct BrokenCount {
    std::string requirement;
    std::int64_t starts = 0;
    std::int64_t cases = 0;
    const CaseRecord* example = nullptr;
    std::string example_words;
};

struct WorstStart {
    const CaseRecord* in_case = nullptr;
    const StartRow* start = nullptr;
};

struct CampaignSummary {
    SuccessRate cases;
    std::int64_t starts = 0;
    std::int64_t starts_passed = 0;
    std::vector<SideRates> sides;     ///< those with more than one value
    std::vector<BrokenCount> broken;  ///< the most frequent first
    /// At most ten that did not pass, see worst_starts().
    std::vector<WorstStart> worst;
};

/// `results` must outlive the summary, which points into it.
CampaignSummary summary_of(const CampaignResults& results);

/// Of the starts that did not pass, the worst first: a broken monitor before an end without a
/// result, that before another outcome, that before a limit; then the one that broke more; then the
/// hotter winding; then the order of the suite. (Which is worse: engineering judgement.) If there
/// are more than `most`, every place of the matrix has one before any has two.
std::vector<WorstStart> worst_starts(const CampaignResults& results, std::size_t most);

}  // namespace sim
