// What an inrush clamp reads: the largest RMS over any 100 ms (common practice; makers differ).
//
// A window slides tick by tick. A run shorter than 100 ms has no reading.
#pragma once

#include <array>
#include <cstddef>
#include <optional>

namespace sim {

class InrushWindow {
  public:
    explicit InrushWindow(double tick_s) : tick_s_(tick_s) {}

    void add(double current_A);
    std::optional<double> largest_rms_A() const;

  private:
    static constexpr std::size_t window_ticks = 1000;

    double tick_s_;
    double integral_ = 0.0;
    double last_square_ = 0.0;
    double largest_ = 0.0;
    std::size_t count_ = 0;
    std::size_t slot_ = 0;
    std::array<double, window_ticks> integral_before_{};  ///< ring of the last 100 ms
};

}  // namespace sim
