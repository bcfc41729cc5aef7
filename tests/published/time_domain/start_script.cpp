#include "start_script.hpp"

#include <algorithm>
#include <memory>

#include "plant_waveforms.hpp"

namespace published {

namespace {

constexpr sim::Instant tick{100'000};

sim::PowerCommands closed(const StartScript& script) {
    sim::PowerCommands commands = line_closed();
    commands.start_capacitor_coil = script.plant.connection == sim::Connection::through_limiter;
    return commands;
}

sim::PowerCommands commands_of_tick(const StartScript& script, sim::Instant begin) {
    sim::PowerCommands commands = closed(script);
    for (const GatePulse& pulse : script.pulses) {
        if (pulse.on < begin + tick && pulse.off > begin) {
            commands.gate_on = std::max(pulse.on, begin) - begin;
            commands.gate_off = std::min(pulse.off, begin + tick) - begin;
        }
    }
    return commands;
}

std::unique_ptr<sim::PlantRun> plant_run(const StartScript& script, sim::Instant largest_step) {
    sim::PlantDescription plant = script.plant;
    plant.largest_step = largest_step;
    return sim::make_plant_run(plant);
}

void finish(const sim::PlantRun& run, ScriptResult& result) {
    result.closure = run.energy().closure();
    result.events = static_cast<int>(run.events());
}

}  // namespace

ScriptResult run_tick_by_tick(const StartScript& script, sim::Instant largest_step) {
    const auto run = plant_run(script, largest_step);
    ScriptResult result;
    for (const sim::Instant read : script.reads) {
        while (run->now() < read) {
            run->apply(commands_of_tick(script, run->now()));
            run->advance_to(run->now() + tick);
        }
        result.rows.push_back(observed(run->outputs(), run->energy()));
    }
    finish(*run, result);
    return result;
}

ScriptResult run_from_stop_to_stop(const StartScript& script, sim::Instant largest_step) {
    const auto run = plant_run(script, largest_step);
    run->apply(closed(script));
    ScriptResult result;
    auto read = script.reads.begin();
    for (const sim::Instant stop : stops(script)) {
        run->advance_to(stop);
        if (read != script.reads.end() && *read == stop) {
            result.rows.push_back(observed(run->outputs(), run->energy()));
            ++read;
        }
        sim::PowerCommands commands = closed(script);
        if (gate_is_on(script, stop)) {
            commands.gate_off = tick;  // goes on until it is commanded off
        }
        run->apply(commands);
    }
    finish(*run, result);
    return result;
}

std::vector<sim::Instant> stops(const StartScript& script) {
    std::vector<sim::Instant> all = script.reads;
    for (const GatePulse& pulse : script.pulses) {
        for (const sim::Instant edge : {pulse.on, pulse.off}) {
            if (edge < script.reads.back()) {
                all.push_back(edge);
            }
        }
    }
    std::sort(all.begin(), all.end());
    all.erase(std::unique(all.begin(), all.end()), all.end());
    return all;
}

bool gate_is_on(const StartScript& script, sim::Instant instant) {
    return std::any_of(
        script.pulses.begin(), script.pulses.end(),
        [instant](const GatePulse& pulse) { return pulse.on <= instant && instant < pulse.off; });
}

}  // namespace published
