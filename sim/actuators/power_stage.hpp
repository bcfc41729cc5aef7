// Turns an actuator frame into what the coils and the gate of the plant do.
#pragma once

#include "firmware/contract/frames.hpp"
#include "sim/timeline/plant_run.hpp"

namespace sim {

/// The unit's line contactor follows the call, as far as the controller permits. Throws
/// std::runtime_error if the frame has another version or a gate window outside the tick.
PowerCommands drive(const firmware::ActuatorFrame& frame, bool call_for_cooling);

}  // namespace sim
