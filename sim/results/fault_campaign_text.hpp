// What `runup faults` prints.
#pragma once

#include <string>

#include "sim/campaigns/fault_campaign.hpp"

namespace sim {

/// A block per fault, then what it came to in all.
std::string fault_campaign_text(const CampaignResult& result);
/// One line.
std::string fault_campaign_verdict(const CampaignResult& result);

}  // namespace sim
