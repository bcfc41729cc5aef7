// Runs one start from the beginning of the supply to the verdict.
//
// Same scenario, same build: same bits. Throws NumericFailure.
#pragma once

#include "sim/bench/plant_of_scenario.hpp"
#include "sim/bench/start_bench.hpp"

namespace sim {

/// `observer` and `listener` may be null.
StartResult run_start(const Scenario& scenario, TickObserver* observer = nullptr,
                      PortListener* listener = nullptr);

}  // namespace sim
