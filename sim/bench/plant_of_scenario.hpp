// From a scenario to what the timeline needs to know of its plant.
#pragma once

#include "sim/scenario/scenario.hpp"
#include "sim/timeline/plant_run.hpp"

namespace sim {

/// The plant that the scenario describes.
PlantDescription describe_plant(const Scenario& scenario);

/// The same scenario with the limiter taken out, and no expectation about its end.
Scenario without_limiter(const Scenario& scenario);

}  // namespace sim
