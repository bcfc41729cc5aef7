#include "sim/bench/start_run.hpp"

namespace sim {

StartResult run_start(const Scenario& scenario, TickObserver* observer, PortListener* listener) {
    StartBench bench(scenario);
    if (listener != nullptr) {
        bench.tell(*listener);
    }
    return bench.run_start(observer);
}

}  // namespace sim
