// Whether a frame from outside keeps the contract of firmware/contract/frames.hpp.
#pragma once

#include <string>

#include "firmware/contract/frames.hpp"

namespace sim {

/// What is wrong with it, to follow "a frame with "; empty if nothing is. `tells_states`: its
/// status word must be a state and a reason of firmware/sequence/state.hpp.
std::string broken_contract(const firmware::ActuatorFrame& frame, bool tells_states);

}  // namespace sim
