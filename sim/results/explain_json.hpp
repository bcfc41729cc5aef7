// An explanation as JSON, schema runup.explain/1.
#pragma once

#include <nlohmann/json.hpp>

#include "sim/explaining/explanation.hpp"

namespace sim {

nlohmann::ordered_json explain_json(const Explanation& explanation);

}  // namespace sim
