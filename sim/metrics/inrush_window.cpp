#include "sim/metrics/inrush_window.hpp"

#include <algorithm>
#include <cmath>

namespace sim {

void InrushWindow::add(double current_A) {
    const double square = current_A * current_A;
    if (count_ > 0) {
        integral_ += 0.5 * tick_s_ * (last_square_ + square);
    }
    last_square_ = square;
    if (count_ >= window_ticks) {
        largest_ = std::max(largest_, integral_ - integral_before_[slot_]);
    }
    integral_before_[slot_] = integral_;
    slot_ = slot_ + 1 == window_ticks ? 0 : slot_ + 1;
    ++count_;
}

std::optional<double> InrushWindow::largest_rms_A() const {
    if (count_ <= window_ticks) {
        return std::nullopt;
    }
    return std::sqrt(largest_ / (tick_s_ * static_cast<double>(window_ticks)));
}

}  // namespace sim
