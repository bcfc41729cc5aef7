// The answer of runup size as JSON, schema "runup.size/1".
#pragma once

#include <nlohmann/json.hpp>

#include "sim/sizing/size_report.hpp"

namespace sim {

nlohmann::ordered_json size_json(const SizeReport& report);

/// For a compressor with a drive of its own: the same schema, nothing simulated.
nlohmann::ordered_json variable_speed_json(const SizedUnit& sized);

}  // namespace sim
