// The gas closed up in one chamber of a compressor, behind valves that open without loss.
//
//   K = p u^n          u = volume / largest volume; n from the gas
//   p = min(max(K / u^n, p_low), p_high)
//   dK/dt = (p_s u^n - K) / leak time       leaks past rings, faces and tips, back to the suction
//
// While the volume moves one way, the clamp alone is the exact history: a valve that has opened
// stays open. When the volume turns, the valve shuts and the chamber holds what it then holds: K is
// "committed", K = p u^n. This is a play (backlash) operator. Whoever owns a chamber must commit it
// wherever its volume turns: at dead centres and at standstill.
#pragma once

#include <algorithm>
#include <cmath>

namespace plant_models {

class CompressionChamber {
  public:
    CompressionChamber(double exponent, double leak_s)
        : exponent_(exponent), leak_per_s_(1.0 / leak_s) {}

    /// u^n
    double volume_power(double volume_share) const {
        return std::exp(exponent_ * std::log(volume_share));
    }
    /// K committed between two pressures; a hair inside them, so that the valve counts as shut.
    static double committed(double content_kPa, double power, double low_kPa, double high_kPa) {
        constexpr double hair = 1e-10;
        const double inside = std::min(content_kPa / power, high_kPa * (1.0 - hair));
        return std::max(inside, low_kPa * (1.0 + hair)) * power;
    }
    double leak_s() const { return 1.0 / leak_per_s_; }
    double leak_rate(double content_kPa, double power, double suction_kPa) const {
        return (suction_kPa * power - content_kPa) * leak_per_s_;
    }

  private:
    double exponent_;
    double leak_per_s_;
};

}  // namespace plant_models
