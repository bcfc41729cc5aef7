// A ladder search as JSON, schema "runup.tune/1".
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "sim/tuning/ladder_search.hpp"

namespace sim {

nlohmann::ordered_json tune_json(const std::string& scenario, const LadderSearch& search);

}  // namespace sim
