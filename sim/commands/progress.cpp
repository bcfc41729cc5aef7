#include "sim/commands/progress.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>

namespace sim {

namespace {
/// Shorter runs are over before anyone could read a number.
constexpr double shortest_shown_s = 60.0;
constexpr Instant refresh_every{10'000'000'000};
}  // namespace

Progress::Progress(double duration_s, TickObserver* next)
    : duration_s_(duration_s),
      next_(next),
      on_terminal_(duration_s >= shortest_shown_s && isatty(STDERR_FILENO) != 0) {}

void Progress::observe(const TickView& view) {
    if (next_ != nullptr) {
        next_->observe(view);
    }
    if (on_terminal_ && view.time % refresh_every == Instant{0}) {
        fmt::print(stderr, "\r{:.0f} of {:.0f} s simulated", view.plant.time_s, duration_s_);
        std::fflush(stderr);
        shown_ = true;
    }
}

void Progress::clear() {
    if (shown_) {
        fmt::print(stderr, "\r{:60}\r", "");
        std::fflush(stderr);
    }
}

}  // namespace sim
