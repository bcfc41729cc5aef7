#include "sim/bench/plant_of_scenario.hpp"

#include <algorithm>
#include <iterator>
#include <utility>
#include <variant>

#include "plant_models/motor/swapped_windings.hpp"
#include "plant_models/numeric/units.hpp"
#include "plant_models/parameter_defaults.hpp"

namespace sim {

namespace {

/// The winding that hangs on R keeps its own copper.
plant_models::HeatParameters with_swapped_copper(const plant_models::HeatParameters& heat,
                                                 const plant_models::MotorParameters& motor) {
    plant_models::HeatParameters swapped = heat.completed(motor);
    std::swap(swapped.main_winding_mass_kg, swapped.aux_winding_mass_kg);
    return swapped;
}

void swap_windings(PlantDescription& plant) {
    if (auto* heat = std::get_if<plant_models::HeatParameters>(&plant.unit.heat)) {
        *heat = with_swapped_copper(*heat, plant.motor);
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
    if (const auto* parts = parts_of(scenario.limiter)) {
        plant.limiter = *parts;
        plant.connection = Connection::through_limiter;
    }
    plant.initial_speed_rad_per_s = plant_models::rpm_to_rad_per_s(scenario.run.initial_speed_rpm);
    return plant;
}

WindingHeat winding_heat(const Scenario& scenario) {
    const auto usual = plant_models::table_defaults<plant_models::HeatParameters>();
    return windings_are_swapped(scenario.faults)
               ? WindingHeat(with_swapped_copper(usual, scenario.motor),
                             plant_models::with_swapped_windings(scenario.motor),
                             scenario.conditions)
               : WindingHeat(usual, scenario.motor, scenario.conditions);
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
