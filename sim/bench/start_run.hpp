// Runs one start: the controller's code tick by tick against the plant, in the step order of
// sim/timeline/plant_run.hpp.
//
// Same scenario, same build: same bits. Throws NumericFailure.
#pragma once

#include "sim/bench/start_result.hpp"
#include "sim/bench/tick_view.hpp"
#include "sim/scenario/scenario.hpp"

namespace sim {

/// Somebody who looks at every tick, such as the trace.
class TickObserver {
  public:
    virtual ~TickObserver() = default;
    virtual void observe(const TickView& view) = 0;
};

/// `observer` may be null.
StartResult run_start(const Scenario& scenario, TickObserver* observer = nullptr);

/// The plant that the scenario describes.
PlantDescription describe_plant(const Scenario& scenario);

/// The same scenario with the limiter taken out, and no expectation about its end.
Scenario without_limiter(const Scenario& scenario);

}  // namespace sim
