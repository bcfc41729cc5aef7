// An inverter whose derived figures are written out, so that one of them can be changed and nothing
// else follows. It behaves as before.
#pragma once

#include "plant_models/supplies/inverter.hpp"
#include "plant_models/supplies/transformer_inverter.hpp"

namespace sim {

/// Only the figures that its laws and its DC side use: the others must stay ungiven.
plant_models::InverterParameters pinned(const plant_models::InverterParameters& inverter);
plant_models::TransformerInverterParameters pinned(
    const plant_models::TransformerInverterParameters& inverter);

}  // namespace sim
