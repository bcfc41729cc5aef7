// RMS over windows that are locked to the supply's half cycles, from samples at tick rate: over
// each half cycle, and over one cycle refreshed every half cycle (the definition of U_rms(1/2) in
// IEC 61000-4-30, recalled).
//
// The square is integrated by the trapezoidal rule; where a window's edge falls between two ticks,
// the cumulative integral is interpolated with its own slope (cubic Hermite), so that a window has
// its exact length. Half cycles are counted from the first sample, in the supply's own phase: on a
// generator whose frequency dips the windows grow with its cycles.
#pragma once

#include <array>

namespace sim {

class WindowRms {
  public:
    /// `nominal_frequency_Hz` of the supply, `tick_s` between samples.
    WindowRms(double nominal_frequency_Hz, double tick_s);

    /// Takes the next sample at the nominal frequency; true when it completed a half cycle.
    bool add(double value) { return add(value, nominal_frequency_Hz_); }
    /// The same with the frequency since the sample before. Below half the nominal one the windows
    /// grow no more: a dead supply has no cycles, and still a voltage of nothing.
    bool add(double value, double frequency_Hz);
    /// Number of completed half cycles; `one_cycle_rms` means something from the second on.
    int half_cycles() const { return edges_ - 1; }
    double half_cycle_rms() const { return half_cycle_rms_; }
    double one_cycle_rms() const { return one_cycle_rms_; }

  private:
    double integral_at(double time_s, double before, double square) const;

    struct Edge {
        double time_s = 0.0;
        double integral = 0.0;
    };

    double nominal_frequency_Hz_;
    double tick_s_;
    double time_s_ = 0.0;
    double phase_half_cycles_ = 0.0;
    double integral_ = 0.0;
    double last_square_ = 0.0;
    std::array<Edge, 2> edge_{};  ///< the last one, and the one before
    int edges_ = 0;
    double half_cycle_rms_ = 0.0;
    double one_cycle_rms_ = 0.0;
};

}  // namespace sim
