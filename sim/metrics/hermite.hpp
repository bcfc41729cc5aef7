// A value between two ticks, from the values and slopes at both: the cubic Hermite interpolant.
// Its error is of fourth order in the tick, like the integrator's.
#pragma once

namespace sim {

struct HermiteSpan {
    double value_0, slope_0, value_1, slope_1;  ///< slopes per second
    double length_s;

    /// `u` from 0 to 1.
    double value(double u) const;
    double slope(double u) const;  ///< per second
    /// Where the value passes `level`, as u; the ends must lie on either side of it.
    double crossing(double level) const;
    /// Where the slope passes zero, as u; the slopes at the ends must differ in sign.
    double extremum() const;
};

}  // namespace sim
