#include "sim/bench/plant_of_scenario.hpp"

#include <variant>

#include "plant_models/numeric/units.hpp"

namespace sim {

PlantDescription describe_plant(const Scenario& scenario) {
    PlantDescription plant;
    plant.motor = scenario.motor;
    plant.load = scenario.load;
    plant.supply = scenario.source;
    plant.wiring = plant_models::series_impedance(scenario.wiring);
    plant.unit = scenario.unit;
    plant.refrigerant = scenario.refrigerant;
    plant.conditions = scenario.conditions;
    if (const auto* limiter = std::get_if<BuiltinLimiter>(&scenario.limiter)) {
        plant.limiter = limiter->parts;
        plant.connection = Connection::through_limiter;
    }
    plant.initial_speed_rad_per_s = plant_models::rpm_to_rad_per_s(scenario.run.initial_speed_rpm);
    return plant;
}

Scenario without_limiter(const Scenario& scenario) {
    Scenario direct = scenario;
    direct.limiter = NoLimiter{};
    return direct;
}

}  // namespace sim
