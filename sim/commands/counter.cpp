#include "sim/commands/counter.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <utility>

namespace sim {

namespace {

/// Before this, a rate would be a guess.
constexpr double shortest_measured_s = 1.0;

std::string pace(int done, int of, double elapsed_s) {
    if (elapsed_s < shortest_measured_s || done == 0) {
        return "";
    }
    const double per_s = done / elapsed_s;
    return fmt::format(" ({:.3g} a second, {:.0f} s left)", per_s, std::ceil((of - done) / per_s));
}

}  // namespace

Counter::Counter(std::string things)
    : things_(std::move(things)),
      on_terminal_(isatty(STDERR_FILENO) == 1),
      begin_(std::chrono::steady_clock::now()) {}

void Counter::show(int done, int of, const std::string& remark) {
    if (on_terminal_) {
        if (done < last_done_) {  // another round of things
            begin_ = std::chrono::steady_clock::now();
        }
        last_done_ = done;
        const std::chrono::duration<double> elapsed = std::chrono::steady_clock::now() - begin_;
        fmt::print(stderr, "\r{} of {} {}{}{}\033[K", done, of, things_, remark,
                   pace(done, of, elapsed.count()));
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
