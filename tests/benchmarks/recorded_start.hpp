// One start through the whole bench, with what was seen at every tick.
#pragma once

#include <vector>

#include "firmware/contract/frames.hpp"
#include "sim/bench/start_run.hpp"

namespace benchmarks {

/// A bundled scenario, by its name without ending.
sim::Scenario bundled_scenario(const char* name);

struct RecordedStart {
    sim::Scenario scenario;
    sim::StartResult result;
    std::vector<double> line_current_A;          ///< at every tick, the first at t = 0
    std::vector<sim::PowerCommands> commands;    ///< in force during every tick
    std::vector<firmware::SensorFrame> samples;  ///< what the controller got; empty when direct
};

RecordedStart record_start(const sim::Scenario& scenario);

}  // namespace benchmarks
