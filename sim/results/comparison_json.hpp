// A comparison of two campaigns as JSON: schema runup.compare/1.
#pragma once

#include <nlohmann/json.hpp>

#include "sim/results/comparison_words.hpp"

namespace sim {

nlohmann::ordered_json comparison_json(const ComparedCampaigns& compared);

}  // namespace sim
