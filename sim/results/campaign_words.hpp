// The words for a campaign that text, JSON and page share.
#pragma once

#include <string>
#include <vector>

#include "sim/reporting/block_verdict.hpp"
#include "sim/reporting/campaign_results.hpp"
#include "sim/reporting/campaign_summary.hpp"

namespace sim {

/// "97.0 % (93.6 to 98.6)": a rate with its interval.
std::string rate_words(const SuccessRate& rate);

/// "smoke passed: 100.0 % (...) of 200 cases." and its like.
std::string campaign_verdict(const CampaignResults& results);

/// What there is to beware of: results that are not whole, ends without a result, broken monitors.
std::vector<std::string> campaign_warnings(const CampaignResults& results,
                                           const CampaignSummary& summary);

/// Of a block that answers for a rate: required, reached, met or not; empty of any other.
std::string required_rate_words(const BlockVerdict& block);

/// How a start ended and what it broke, in one line.
std::string start_words(const StartRow& start);

/// Enough digits to tell 1 % apart, and no more than five significant ones.
std::string figure_words(double value);

}  // namespace sim
