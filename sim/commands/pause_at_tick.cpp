#include "sim/commands/pause_at_tick.hpp"

#include <csignal>
#include <fstream>
#include <string>

#include "sim/timeline/tick.hpp"

namespace sim {

namespace {

/// Linux tells who traces this process; 0 is nobody.
bool runs_in_a_debugger() {
    std::ifstream status("/proc/self/status");
    const std::string key = "TracerPid:";
    for (std::string line; std::getline(status, line);) {
        if (line.compare(0, key.size(), key) == 0) {
            return line.find_first_of("123456789") != std::string::npos;
        }
    }
    return false;
}

}  // namespace

void PauseAtTick::observe(const TickView& view) {
    if (next_ != nullptr) {
        next_->observe(view);
    }
    if (view.time == tick_ * tick_length && runs_in_a_debugger()) {
        static_cast<void>(std::raise(SIGTRAP));
    }
}

}  // namespace sim
