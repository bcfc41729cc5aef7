// The heat maps of a campaign: rates and median figures over two sides of its matrix.
#pragma once

#include <vector>

#include "sim/pages/heat_map.hpp"
#include "sim/reporting/campaign_results.hpp"

namespace sim {

/// Success rates: compressors by supplies, a map for each setting and for those that never meet;
/// then conditions, faults and settings by compressors (or by supplies where the suite has no
/// compressors). Only of sides that have values.
std::vector<HeatMap> rate_maps(const CampaignResults& results);

/// Compressors by supplies, maps as above: the medians of the figures that tell what a
/// start cost.
std::vector<HeatMap> figure_maps(const CampaignResults& results);

}  // namespace sim
