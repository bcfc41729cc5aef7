// Several series of starts as JSON, schema "runup.repeat_comparison/1": a list of "runup.repeat/1"
// objects with the learning law of each, its settled clamp current, and that over the last one's.
#pragma once

#include <nlohmann/json.hpp>

#include "sim/bench/repeat_comparison.hpp"

namespace sim {

nlohmann::ordered_json repeat_comparison_json(const RepeatComparison& comparison);

}  // namespace sim
