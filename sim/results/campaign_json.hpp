// A campaign's summary as JSON: schema runup.report/1. Single starts stand in the results file and
// in its CSV.
#pragma once

#include <nlohmann/json.hpp>

#include "sim/reporting/campaign_results.hpp"

namespace sim {

nlohmann::ordered_json campaign_json(const CampaignResults& results);

/// What a results file says of itself, as every report names it.
nlohmann::ordered_json campaign_row_json(const CampaignResults& results);

}  // namespace sim
