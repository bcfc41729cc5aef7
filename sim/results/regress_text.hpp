// What a campaign came to, for people.
#pragma once

#include <string>

#include "sim/regression/campaign_summary.hpp"

namespace sim {

/// What the words around the numbers name.
struct CampaignNames {
    std::string suite;    ///< as the user gave it
    std::string results;  ///< the file
};

std::string regress_text(const CampaignSummary& summary, const CampaignNames& names);
/// One line.
std::string regress_verdict(const CampaignSummary& summary);

}  // namespace sim
