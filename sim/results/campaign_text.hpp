// A campaign as a page of text.
#pragma once

#include <string>

#include "sim/reporting/campaign_results.hpp"

namespace sim {

std::string campaign_text(const CampaignResults& results);

}  // namespace sim
