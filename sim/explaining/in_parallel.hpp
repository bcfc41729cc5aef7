// Does numbered pieces of work on several threads. Every piece keeps its result at its own place,
// so the outcome does not depend on the number of threads.
#pragma once

#include <cstddef>
#include <functional>

namespace sim {

/// Calls `piece(k)` once for every k below `count`. The first exception that a piece throws is
/// thrown again once all threads have ended; pieces not begun by then are left out.
void in_parallel(std::size_t count, int threads, const std::function<void(std::size_t)>& piece);

}  // namespace sim
