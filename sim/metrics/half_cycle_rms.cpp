#include "sim/metrics/half_cycle_rms.hpp"

#include <algorithm>
#include <cmath>

namespace sim {

HalfCycleRms::HalfCycleRms(double frequency_Hz, double tick_s)
    : half_cycle_s_(0.5 / frequency_Hz), tick_s_(tick_s) {}

bool HalfCycleRms::add(double value) {
    const double square = value * value;
    if (first_) {
        first_ = false;
        last_square_ = square;
        edges_ = 1;
        next_edge_s_ = half_cycle_s_;
        return false;
    }
    const double before = integral_;
    integral_ += 0.5 * tick_s_ * (last_square_ + square);
    time_s_ += tick_s_;
    bool completed = false;
    // A sample that falls on the edge, up to rounding, belongs to the window that ends there.
    if (time_s_ >= next_edge_s_ - 1e-9) {
        const double u = std::clamp((next_edge_s_ - (time_s_ - tick_s_)) / tick_s_, 0.0, 1.0);
        const double at_edge = before + u * u * (3.0 - 2.0 * u) * (integral_ - before) +
                               tick_s_ * (u * (1.0 - u) * (1.0 - u) * last_square_ -
                                          u * u * (1.0 - u) * square);
        if (edges_ >= 2) {
            rms_ = std::sqrt(std::max(0.0, at_edge - integral_at_edge_[1]) / (2.0 * half_cycle_s_));
            completed = true;
        }
        integral_at_edge_[1] = integral_at_edge_[0];
        integral_at_edge_[0] = at_edge;
        ++edges_;
        next_edge_s_ = half_cycle_s_ * edges_;
    }
    last_square_ = square;
    return completed;
}

}  // namespace sim
