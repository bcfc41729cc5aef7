#include "plant_models/supplies/grid.hpp"
#include "sim/timeline/plants/plants_on_implementation.hpp"

namespace sim {

template std::unique_ptr<PlantRun> make_plant_on<plant_models::Grid>(
    const plant_models::GridParameters& supply, const PlantDescription& description);

}  // namespace sim
