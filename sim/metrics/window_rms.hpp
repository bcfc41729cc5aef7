// RMS over windows that are locked to the supply's half cycles, from samples at tick rate: over
// each half cycle, and over one cycle refreshed every half cycle (the definition of U_rms(1/2) in
// IEC 61000-4-30, recalled).
//
// The square is integrated by the trapezoidal rule; where a window's edge falls between two ticks,
// the cumulative integral is interpolated with its own slope (cubic Hermite), so that a window has
// its exact length. Half cycles are counted from the first sample.
#pragma once

#include <array>

namespace sim {

class WindowRms {
  public:
    /// `frequency_Hz` of the supply, `tick_s` between samples.
    WindowRms(double frequency_Hz, double tick_s);

    /// Takes the next sample; true when it completed a half cycle.
    bool add(double value);
    /// Number of completed half cycles; `one_cycle_rms` means something from the second on.
    int half_cycles() const { return edges_ - 1; }
    double half_cycle_rms() const { return half_cycle_rms_; }
    double one_cycle_rms() const { return one_cycle_rms_; }

  private:
    double integral_at(double time_s, double before, double square) const;

    double half_cycle_s_;
    double tick_s_;
    double time_s_ = 0.0;
    double integral_ = 0.0;
    double last_square_ = 0.0;
    double next_edge_s_;
    std::array<double, 2> integral_at_edge_{};  ///< at the last edge, and at the one before
    int edges_ = 0;
    double half_cycle_rms_ = 0.0;
    double one_cycle_rms_ = 0.0;
};

}  // namespace sim
