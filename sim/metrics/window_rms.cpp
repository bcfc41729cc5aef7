#include "sim/metrics/window_rms.hpp"

#include <algorithm>
#include <cmath>

namespace sim {

WindowRms::WindowRms(double frequency_Hz, double tick_s)
    : half_cycle_s_(0.5 / frequency_Hz), tick_s_(tick_s), next_edge_s_(half_cycle_s_) {}

double WindowRms::integral_at(double time_s, double before, double square) const {
    const double u = std::clamp((time_s - (time_s_ - tick_s_)) / tick_s_, 0.0, 1.0);
    const double v = 1.0 - u;
    return before + u * u * (3.0 - 2.0 * u) * (integral_ - before) +
           tick_s_ * u * v * (v * last_square_ - u * square);
}

bool WindowRms::add(double value) {
    const double square = value * value;
    if (edges_ == 0) {
        edges_ = 1;
        last_square_ = square;
        return false;
    }
    const double before = integral_;
    integral_ += 0.5 * tick_s_ * (last_square_ + square);
    time_s_ += tick_s_;
    // A sample that falls on the edge, up to rounding, belongs to the window that ends there.
    const bool completed = time_s_ >= next_edge_s_ - 1e-9;
    if (completed) {
        const double at_edge = integral_at(next_edge_s_, before, square);
        const double half = std::max(0.0, at_edge - integral_at_edge_[0]);
        half_cycle_rms_ = std::sqrt(half / half_cycle_s_);
        if (edges_ >= 2) {
            const double whole = std::max(0.0, at_edge - integral_at_edge_[1]);
            one_cycle_rms_ = std::sqrt(whole / (2.0 * half_cycle_s_));
        }
        integral_at_edge_ = {at_edge, integral_at_edge_[0]};
        ++edges_;
        next_edge_s_ = half_cycle_s_ * edges_;
    }
    last_square_ = square;
    return completed;
}

}  // namespace sim
