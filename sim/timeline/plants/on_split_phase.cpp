#include "plant_models/supplies/split_phase.hpp"
#include "sim/timeline/plants/plants_on_implementation.hpp"

namespace sim {

template std::unique_ptr<PlantRun> make_plant_on<plant_models::SplitPhase>(
    const plant_models::SplitPhaseParameters& supply, const PlantDescription& description);

}  // namespace sim
