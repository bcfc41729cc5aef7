// A fit as JSON, schema "runup.fit/1". What the nameplate does not print is null.
#pragma once

#include <nlohmann/json.hpp>

#include "sim/fitting/nameplate_fit.hpp"

namespace sim {

nlohmann::ordered_json fit_json(const NameplateFit& fit);

}  // namespace sim
