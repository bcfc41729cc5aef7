#include "plant_models/supplies/transformer_inverter.hpp"
#include "sim/timeline/plants/plants_on_implementation.hpp"

namespace sim {

template std::unique_ptr<PlantRun> make_plant_on<plant_models::TransformerInverter>(
    const plant_models::TransformerInverterParameters& supply, const PlantDescription& description);

}  // namespace sim
