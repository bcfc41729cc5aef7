// RMS over one cycle, refreshed every half cycle (the definition of U_rms(1/2) in IEC 61000-4-30,
// recalled), from samples at tick rate.
//
// The square is integrated by the trapezoidal rule; where a window's edge falls between two ticks,
// the cumulative integral is interpolated with its own slope (cubic Hermite), so that the window
// is exactly one cycle long. Windows are counted from the first sample.
#pragma once

#include <array>
#include <cstddef>

namespace sim {

class HalfCycleRms {
  public:
    /// `frequency_Hz` of the supply, `tick_s` between samples.
    HalfCycleRms(double frequency_Hz, double tick_s);

    /// Takes the next sample; true when a window was completed by it.
    bool add(double value);
    /// Of the window completed last; 0 before the first.
    double rms() const { return rms_; }

  private:
    double half_cycle_s_;
    double tick_s_;
    double time_s_ = 0.0;
    double integral_ = 0.0;
    double last_square_ = 0.0;
    double next_edge_s_ = 0.0;
    std::array<double, 2> integral_at_edge_{};  ///< at the last edge, and at the one before
    int edges_ = 0;
    bool first_ = true;
    double rms_ = 0.0;
};

}  // namespace sim
