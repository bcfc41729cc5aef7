// Every position that the plant's switches and its rotor can be in, and states that belong to it.
#pragma once

#include <string>
#include <vector>

#include "support/live_plant.hpp"
#include "support/random_numbers.hpp"

namespace support {

struct PlantPosition {
    plant_models::MainPath main_path;
    double main_direction;  ///< of the thyristor or the arc, else 0
    bool line_connected;
    bool start_capacitor_in;
    double rotation;  ///< +1, -1, or 0 while the rotor sticks
};

std::vector<PlantPosition> all_positions();
std::string describe(const PlantPosition& position);

/// Which of the stator currents can flow.
struct FreeCurrents {
    bool main;
    bool auxiliary;
    bool opposite;  ///< only as a loop: auxiliary = -main
};
FreeCurrents free_currents(const PlantPosition& position, bool run_capacitor);

/// Moves the switches of a fresh plant there, with the public handlers only. While the start
/// capacitor is out it holds a charge.
template <class Supply, class Load>
void put(LivePlant<Supply, Load>& live, const PlantPosition& position) {
    using Plant = typename LivePlant<Supply, Load>::Plant;
    using plant_models::MainPath;
    live.x = live.plant.initial_state(100.0 * position.rotation);
    live.x[Plant::capacitor_voltage] = 170.0;
    live.refresh();
    live.start(true);
    live.start(position.start_capacitor_in);
    if (position.main_path != MainPath::open) {
        live.bypass(true);
    }
    if (position.main_direction != 0.0) {
        live.x[Plant::main_current] = 5.0 * position.main_direction;
        live.refresh();
        live.gate(position.main_path == MainPath::thyristor);
        live.bypass(false);
    }
    if (position.line_connected) {
        live.line(true);
    }
}

/// A random state that the position allows, with currents, voltages and speeds of either sign.
template <class Supply, class Load>
typename LivePlant<Supply, Load>::State random_state(const LivePlant<Supply, Load>& live,
                                                     const PlantPosition& position,
                                                     bool run_capacitor, RandomNumbers& random) {
    using Plant = typename LivePlant<Supply, Load>::Plant;
    typename LivePlant<Supply, Load>::State x = live.x;
    const FreeCurrents free = free_currents(position, run_capacitor);
    const double main_A = random.between(0.1, 90.0);
    const double sign = random.below(2) == 0 ? 1.0 : -1.0;
    x[Plant::main_current] =
        free.main ? main_A * (position.main_direction != 0.0 ? position.main_direction : sign)
                  : 0.0;
    x[Plant::aux_current] = free.opposite    ? -x[Plant::main_current]
                            : free.auxiliary ? random.between(-40.0, 40.0)
                                             : 0.0;
    x[Plant::rotor_main_current] = random.between(-90.0, 90.0);
    x[Plant::rotor_aux_current] = random.between(-90.0, 90.0);
    x[Plant::capacitor_voltage] = random.between(-600.0, 600.0);
    x[Plant::speed] = position.rotation * random.between(0.5, 400.0);
    if constexpr (Supply::state_count > 0) {
        double* supply = x.data() + Plant::first_supply_state;
        supply[Supply::inductor_current] = random.between(-90.0, 90.0);
        supply[Supply::output_voltage] = random.between(-380.0, 380.0);
        supply[Supply::resonator] = random.between(-60.0, 60.0);
        supply[Supply::resonator_quadrature] = random.between(-60.0, 60.0);
        supply[Supply::bus_voltage] = random.between(250.0, 430.0);
    }
    return x;
}

}  // namespace support
