// What table [limiter] of kind "library" needs beside its keys: the library itself.
#pragma once

#include "sim/scenario/fitting_together.hpp"

namespace sim {

/// Another kind of limiter stays as it is. A relative path begins where the file stands that gives
/// it. The library is loaded once, in a process of its own; throws InputError if it is missing or
/// cannot be used, or if a fault waits for a state that its controller will never tell.
void complete_library_limiter(Scenario& scenario, const KeyLocator& where);

}  // namespace sim
