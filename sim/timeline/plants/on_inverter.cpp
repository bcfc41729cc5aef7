#include "plant_models/supplies/inverter.hpp"
#include "sim/timeline/plants/plants_on_implementation.hpp"

namespace sim {

template std::unique_ptr<PlantRun> make_plant_on<plant_models::Inverter>(
    const plant_models::InverterParameters& supply, const PlantDescription& description);

}  // namespace sim
