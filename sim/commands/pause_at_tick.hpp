// Stops the program in the debugger at a tick, and passes all ticks on.
//
// The stop is between the reading of the tick's samples and the controller's step, so a breakpoint
// on firmware::Controller::step that is set there is met in that very tick. No simulated time
// passes meanwhile: the bench pulls, and nothing in it looks at a clock.
#pragma once

#include <cstdint>

#include "sim/bench/start_bench.hpp"

namespace sim {

class PauseAtTick final : public TickObserver {
  public:
    /// A negative `tick` never comes. `next` may be null.
    PauseAtTick(std::int64_t tick, TickObserver* next) : tick_(tick), next_(next) {}

    void observe(const TickView& view) override;

  private:
    std::int64_t tick_;
    TickObserver* next_;
};

}  // namespace sim
