#include "plant_models/supplies/generator.hpp"
#include "sim/timeline/plants/plants_on_implementation.hpp"

namespace sim {

template std::unique_ptr<PlantRun> make_plant_on<plant_models::Generator>(
    const plant_models::GeneratorParameters& supply, const PlantDescription& description);

}  // namespace sim
