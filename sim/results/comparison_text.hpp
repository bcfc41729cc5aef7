// A comparison of two campaigns as a page of text.
#pragma once

#include <string>

#include "sim/results/comparison_words.hpp"

namespace sim {

std::string comparison_text(const ComparedCampaigns& compared);

}  // namespace sim
