// How many threads a command uses that was not told how many.
#pragma once

#include <algorithm>
#include <thread>

namespace sim {

inline constexpr int most_threads = 64;

inline int all_cores() {
    return std::clamp(static_cast<int>(std::thread::hardware_concurrency()), 1, most_threads);
}

}  // namespace sim
