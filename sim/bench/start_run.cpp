#include "sim/bench/start_run.hpp"

namespace sim {

StartResult run_start(const Scenario& scenario, TickObserver* observer) {
    return StartBench(scenario).run_start(observer);
}

}  // namespace sim
