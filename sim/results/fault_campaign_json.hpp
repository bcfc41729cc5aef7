// The result of `runup faults` as JSON, schema runup.faults/1.
#pragma once

#include <nlohmann/json.hpp>

#include "sim/campaigns/fault_campaign.hpp"

namespace sim {

nlohmann::ordered_json fault_campaign_json(const CampaignResult& result);

}  // namespace sim
