// Counts this thread's allocations. Linking allocation_counter.cpp replaces the global operator new
// of the whole test program.
#pragma once

namespace sim_test {

/// Since the thread began.
long allocations();

}  // namespace sim_test
