// An interval by its middle, and how wide one of 95 % is.
#pragma once

namespace sim {

struct Interval {
    double centre = 0.0;
    double half = 0.0;
};

/// Standard deviations of a normal distribution that 95 % lie within, on both sides.
inline constexpr double two_sided_95 = 1.959964;

}  // namespace sim
