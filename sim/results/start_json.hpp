// A start's result as JSON, schema "runup.start/1". Numbers that do not exist are null, never 0.
#pragma once

#include <nlohmann/json.hpp>

#include "sim/bench/start_result.hpp"

namespace sim {

nlohmann::ordered_json start_json(const StartResult& result);

}  // namespace sim
