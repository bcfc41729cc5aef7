// What a campaign came to, as JSON: schema runup.regress/1.
#pragma once

#include <nlohmann/json.hpp>

#include "sim/regression/regress_summary.hpp"
#include "sim/results/regress_text.hpp"

namespace sim {

nlohmann::ordered_json regress_json(const RegressSummary& summary, const RegressNames& names);

}  // namespace sim
