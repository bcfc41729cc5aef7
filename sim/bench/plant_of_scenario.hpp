// From a scenario to what the timeline needs to know of its plant.
#pragma once

#include "sim/metrics/winding_heat.hpp"
#include "sim/scenario/scenario.hpp"
#include "sim/timeline/plant_run.hpp"

namespace sim {

/// The plant that the scenario describes, as it is when nothing has broken yet; windings that were
/// swapped at installation are.
PlantDescription describe_plant(const Scenario& scenario);

/// The windings of that plant before its first start.
WindingHeat winding_heat(const Scenario& scenario);

/// The same scenario with the limiter taken out, its faults with it, and no expectation about its
/// end.
Scenario without_limiter(const Scenario& scenario);

}  // namespace sim
