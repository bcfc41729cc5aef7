#include "sim/bench/plant_of_scenario.hpp"

#include <algorithm>
#include <iterator>
#include <utility>
#include <variant>

#include "plant_models/motor/swapped_windings.hpp"
#include "plant_models/numeric/units.hpp"

namespace sim {

namespace {

/// The winding that hangs on R keeps its own copper.
void swap_windings(PlantDescription& plant) {
    if (auto* heat = std::get_if<plant_models::HeatParameters>(&plant.unit.heat)) {
        *heat = heat->completed(plant.motor);
        std::swap(heat->main_winding_mass_kg, heat->aux_winding_mass_kg);
    }
    plant.motor = plant_models::with_swapped_windings(plant.motor);
}

}  // namespace

PlantDescription describe_plant(const Scenario& scenario) {
    PlantDescription plant;
    plant.motor = scenario.motor;
    plant.unit = scenario.unit;
    if (windings_are_swapped(scenario.faults)) {
        swap_windings(plant);
    }
    plant.load = scenario.load;
    plant.supply = scenario.source;
    plant.wiring = plant_models::series_impedance(scenario.wiring);
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
    direct.faults.clear();
    std::copy_if(scenario.faults.begin(), scenario.faults.end(), std::back_inserter(direct.faults),
                 [](const Fault& fault) { return !fault.concerns_limiter(); });
    return direct;
}

}  // namespace sim
