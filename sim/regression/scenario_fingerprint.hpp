// What a scenario is, as one short hash: the same for two files that come to the same numbers, and
// another as soon as a single key of any table has another value.
#pragma once

#include <string>

#include "sim/scenario/scenario.hpp"

namespace sim {

/// Of everything that a run follows from; names and titles are left out.
std::string scenario_fingerprint(const Scenario& scenario);

/// Of the controller alone: its kind, its power parts and its settings.
std::string settings_fingerprint(const Scenario& scenario);

}  // namespace sim
