// A series of starts as JSON, schema "runup.repeat/1". Numbers that do not exist are null, never 0.
#pragma once

#include <nlohmann/json.hpp>

#include "sim/bench/repeat_run.hpp"

namespace sim {

nlohmann::ordered_json repeat_json(const RepeatResult& result);

}  // namespace sim
