// A made-up course of ticks for metrics and monitors: fill in `plant`, `commands` and `call`, look
// at `view()`, go on with `next()`.
#pragma once

#include "sim/bench/tick_view.hpp"

namespace sim_test {

class TickSequence {
  public:
    plant_models::PlantOutputs plant;
    sim::PowerCommands commands;
    bool call = true;

    sim::TickView view() {
        plant.time_s = plant_models::to_seconds(time_);
        return {time_, plant, commands, call};
    }
    void next() { time_ += sim::tick_length; }
    /// Leaves `count` ticks out, for monitors that only look at the time.
    void skip(int count) { time_ += count * sim::tick_length; }
    double time_s() const { return plant_models::to_seconds(time_); }

  private:
    sim::Instant time_{0};
};

}  // namespace sim_test
