#include "sim/metrics/window_rms.hpp"

#include <algorithm>
#include <cmath>

namespace sim {

namespace {
constexpr double lowest_share_of_nominal = 0.5;
/// A sample that falls on the edge, up to rounding, belongs to the window that ends there.
constexpr double rounding_half_cycles = 1e-7;
}  // namespace

WindowRms::WindowRms(double nominal_frequency_Hz, double tick_s)
    : nominal_frequency_Hz_(nominal_frequency_Hz), tick_s_(tick_s) {}

double WindowRms::integral_at(double time_s, double before, double square) const {
    const double u = std::clamp((time_s - (time_s_ - tick_s_)) / tick_s_, 0.0, 1.0);
    const double v = 1.0 - u;
    return before + u * u * (3.0 - 2.0 * u) * (integral_ - before) +
           tick_s_ * u * v * (v * last_square_ - u * square);
}

bool WindowRms::add(double value, double frequency_Hz) {
    const double square = value * value;
    if (edges_ == 0) {
        edges_ = 1;
        last_square_ = square;
        return false;
    }
    const double before = integral_;
    integral_ += 0.5 * tick_s_ * (last_square_ + square);
    time_s_ += tick_s_;
    const double half_cycles_per_s =
        2.0 * std::max(frequency_Hz, lowest_share_of_nominal * nominal_frequency_Hz_);
    phase_half_cycles_ += half_cycles_per_s * tick_s_;
    const double past_edge = phase_half_cycles_ - edges_;
    const bool completed = past_edge >= -rounding_half_cycles;
    if (completed) {
        const double edge_s = time_s_ - past_edge / half_cycles_per_s;
        const Edge edge{edge_s, integral_at(edge_s, before, square)};
        const auto rms_since = [&edge](const Edge& begin) {
            return std::sqrt(std::max(0.0, edge.integral - begin.integral) /
                             (edge.time_s - begin.time_s));
        };
        half_cycle_rms_ = rms_since(edge_[0]);
        if (edges_ >= 2) {
            one_cycle_rms_ = rms_since(edge_[1]);
        }
        edge_ = {edge, edge_[0]};
        ++edges_;
    }
    last_square_ = square;
    return completed;
}

}  // namespace sim
