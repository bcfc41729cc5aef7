#include "sim/commands/counter.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>
#include <utility>

namespace sim {

Counter::Counter(std::string things)
    : things_(std::move(things)), on_terminal_(isatty(STDERR_FILENO) == 1) {}

void Counter::show(int done, int of) {
    if (on_terminal_) {
        fmt::print(stderr, "\r{} of {} {}", done, of, things_);
        std::fflush(stderr);
        shown_ = true;
    }
}

void Counter::clear() {
    if (shown_) {
        fmt::print(stderr, "\r\033[K");
        std::fflush(stderr);
        shown_ = false;
    }
}

}  // namespace sim
