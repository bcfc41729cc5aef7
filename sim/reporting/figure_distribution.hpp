// How a figure is spread over the starts of a campaign.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "sim/reporting/campaign_results.hpp"

namespace sim {

struct FigureDistribution {
    std::string figure;
    std::int64_t starts = 0;   ///< that have it
    std::int64_t without = 0;  ///< that do not
    double lowest = 0.0;
    double low_5_percent = 0.0;  ///< 5 % of the starts lie below it
    double median = 0.0;
    double high_5_percent = 0.0;  ///< 5 % lie above it
    double highest = 0.0;

    /// Of equal width, a round number; the first begins at `bins_from`, a multiple of it. One bin
    /// of no width if all values are equal.
    struct Bin {
        std::int64_t passed = 0;
        std::int64_t failed = 0;
    };
    double bins_from = 0.0;
    double bin_width = 0.0;
    std::vector<Bin> bins;
};

/// Of every figure that any start has, in the order of the results.
std::vector<FigureDistribution> figure_distributions(const CampaignResults& results);

}  // namespace sim
