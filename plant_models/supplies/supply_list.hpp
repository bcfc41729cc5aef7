// The list of supplies. Adding one: write its file beside grid.hpp, name it here.
#pragma once

#include <variant>

#include "plant_models/supplies/grid.hpp"
#include "plant_models/supplies/inverter.hpp"

namespace plant_models {

using AnySupplyParameters = std::variant<GridParameters, InverterParameters>;

}  // namespace plant_models
