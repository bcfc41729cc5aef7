// The reference motor with its rotor held, on a grid, with contacts that move at once: a plant
// whose currents begin where a gate edge says so.
#pragma once

#include <memory>

#include "bench/cases.hpp"
#include "sim/timeline/plant_run.hpp"

namespace sim_test {

using sim::Instant;

inline constexpr Instant one_tick{100'000};

inline sim::PlantDescription held_rotor(double phase_deg) {
    sim::Scenario scenario = bundled("reference_limited");
    sim::PlantDescription plant;
    plant.motor = scenario.motor;
    auto load = std::get<plant_models::PolynomialLoadParameters>(scenario.load);
    load.breakaway_torque_Nm = 500.0;
    plant.load = load;
    auto grid = std::get<plant_models::GridParameters>(scenario.source);
    grid.phase_deg = phase_deg;
    plant.supply = grid;
    plant.limiter = limiter_of(scenario).parts;
    plant.limiter.contact_close_ms = 0.0;
    plant.limiter.contact_open_ms = 0.0;
    plant.limiter.contact_bounce_ms = 0.0;
    plant.connection = sim::Connection::through_limiter;
    return plant;
}

inline sim::PowerCommands line_only() {
    sim::PowerCommands commands;
    commands.line_coil = true;
    return commands;
}

inline sim::PowerCommands with_gate(sim::PowerCommands commands, long on_us, long off_us) {
    commands.gate_on = Instant{1000 * on_us};
    commands.gate_off = Instant{1000 * off_us};
    return commands;
}

/// One whole tick under these commands.
inline void tick(sim::PlantRun& plant, const sim::PowerCommands& commands) {
    plant.apply(commands);
    plant.advance_to(plant.now() + one_tick);
}

/// A plant that has been on the line for `ticks` ticks, gates off.
inline std::unique_ptr<sim::PlantRun> on_the_line(const sim::PlantDescription& description,
                                                  int ticks) {
    auto plant = sim::make_plant_run(description);
    for (int k = 0; k < ticks; ++k) {
        tick(*plant, line_only());
    }
    return plant;
}

}  // namespace sim_test
