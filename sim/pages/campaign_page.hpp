// The page of a campaign: rates with their intervals, heat maps over the matrix, what was not held,
// the worst starts with what runs them again, what drives failure, and how the figures are spread.
#pragma once

#include "sim/pages/page.hpp"
#include "sim/reporting/campaign_results.hpp"

namespace sim {

Page campaign_page(const CampaignResults& results);

}  // namespace sim
