// The page of a comparison: the verdict, what was paired, what changed, and which cases newly fail.
#pragma once

#include "sim/pages/page.hpp"
#include "sim/results/comparison_words.hpp"

namespace sim {

Page comparison_page(const ComparedCampaigns& compared);

}  // namespace sim
