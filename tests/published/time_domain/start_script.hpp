// A start whose commands are fixed beforehand, so that several integrators can run the same one:
// the line contact closes at t = 0 (behind a limiter the start capacitor's contact, too), the gate
// is driven in given pulses, and the state is read at given instants.
#pragma once

#include <variant>
#include <vector>

#include "cvode_run.hpp"
#include "observed_state.hpp"
#include "plant_models/loads/polynomial.hpp"
#include "sim/timeline/plant_run.hpp"

namespace published {

struct GatePulse {
    sim::Instant on;
    sim::Instant off;
};

struct StartScript {
    sim::PlantDescription plant;      ///< its polynomial load is what it is
    std::vector<GatePulse> pulses;    ///< in order, apart from each other; none when direct
    std::vector<sim::Instant> reads;  ///< in order
};

struct ScriptResult {
    std::vector<Observed> rows;  ///< one for each read
    double closure = 0.0;        ///< of the energy audit at the last read
    int events = 0;
};

/// Our integrator, driven as the bench does it: commanded and stopped at every tick.
ScriptResult run_tick_by_tick(const StartScript& script, sim::Instant largest_step);

/// Our integrator, stopped only where something is commanded or read.
ScriptResult run_from_stop_to_stop(const StartScript& script, sim::Instant largest_step);

/// All instants at which something is commanded or read, each once, in order.
std::vector<sim::Instant> stops(const StartScript& script);
bool gate_is_on(const StartScript& script, sim::Instant instant);

/// The other solver. `supply` is the model of the script's supply.
template <class Supply>
ScriptResult run_by_cvode(const StartScript& script, const Supply& supply,
                          double relative_tolerance) {
    using Load = plant_models::PolynomialLoad;
    const bool direct = script.plant.connection == sim::Connection::direct;
    const auto& load = std::get<plant_models::PolynomialLoadParameters>(script.plant.load);
    CvodeRun<Supply, Load> run({script.plant.motor, script.plant.limiter, supply, Load(load)},
                               script.plant.initial_speed_rad_per_s, relative_tolerance);
    run.command([&](auto& plant, auto& x, const auto& /*rate*/, double time_s) {
        plant.set_line_contact(true, x);
        if (direct) {
            plant.set_bypass_contact(true, x);
        } else {
            plant.set_start_contact(true, x, time_s);
        }
    });
    ScriptResult result;
    auto read = script.reads.begin();
    for (const sim::Instant stop : stops(script)) {
        run.advance_to(plant_models::to_seconds(stop));
        if (read != script.reads.end() && *read == stop) {
            result.rows.push_back(observed(run.outputs(), run.energy()));
            ++read;
        }
        const bool on = gate_is_on(script, stop);
        if (on != run.outputs().gate_on) {
            run.command([on](auto& plant, auto& x, const auto& rate, double time_s) {
                plant.set_gate(on, x, rate, time_s);
            });
        }
    }
    result.closure = run.energy().closure();
    result.events = run.events();
    return result;
}

}  // namespace published
