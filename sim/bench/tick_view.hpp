// What happened at one tick, as monitors, metrics and the trace see it. See the step order in
// sim/timeline/plant_run.hpp: this is its point 2.
#pragma once

#include <optional>

#include "firmware/contract/frames.hpp"
#include "firmware/telemetry.hpp"
#include "plant_models/plant_outputs.hpp"
#include "sim/controllers/flash_store.hpp"
#include "sim/controllers/seen_doing.hpp"
#include "sim/timeline/plant_run.hpp"
#include "sim/timeline/tick.hpp"

namespace sim {

class ControllerPort;

struct TickView {
    Instant time{0};
    const plant_models::PlantOutputs& plant;  ///< the truth at this instant
    const PowerCommands& commands;            ///< in force during the tick that ends now
    bool call_for_cooling = false;
    /// Sampled now, and what the controller thinks after the previous tick; null in a direct start.
    const firmware::SensorFrame* samples = nullptr;
    const firmware::Telemetry* controller = nullptr;
    bool tells_only_states = false;  ///< of `controller`, at most state and reason say anything
    /// Of a controller that does not tell its states, or has failed.
    std::optional<SeenDoing> seen = std::nullopt;
    double hottest_winding_C = 0.0;     ///< see sim/metrics/winding_heat.hpp
    const FlashStore* store = nullptr;  ///< of the controller; null in a direct start
    /// Of the previous tick, in force from now on; null in a direct start, as is the port.
    const firmware::ActuatorFrame* answer = nullptr;
    const ControllerPort* port = nullptr;
};

}  // namespace sim
