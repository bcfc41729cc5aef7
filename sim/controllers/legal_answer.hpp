// Whether what came over the wire can be an answer at all, before anybody acts on it or looks up a
// name by a number in it.
#pragma once

#include <string>

#include "firmware/board/wire.hpp"

namespace sim {

/// Empty if it can; else what cannot be, without a full stop.
std::string fault_of(const firmware::board::Answer& answer);

}  // namespace sim
