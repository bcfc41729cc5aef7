#include "sim/metrics/hermite.hpp"

namespace sim {

namespace {

/// Bisection: 50 halvings reach the last digit; it is called a few times a run.
template <class Function>
double bisect(Function function, bool rising) {
    double low = 0.0;
    double high = 1.0;
    for (int k = 0; k < 50; ++k) {
        const double middle = 0.5 * (low + high);
        ((function(middle) < 0.0) == rising ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

}  // namespace

double HermiteSpan::value(double u) const {
    const double v = 1.0 - u;
    return v * v * (1.0 + 2.0 * u) * value_0 + u * u * (3.0 - 2.0 * u) * value_1 +
           length_s * u * v * (v * slope_0 - u * slope_1);
}

double HermiteSpan::slope(double u) const {
    const double v = 1.0 - u;
    return 6.0 * u * v * (value_1 - value_0) / length_s + v * (1.0 - 3.0 * u) * slope_0 +
           u * (3.0 * u - 2.0) * slope_1;
}

double HermiteSpan::crossing(double level) const {
    return bisect([&](double u) { return value(u) - level; }, value_0 < value_1);
}

double HermiteSpan::extremum() const {
    return bisect([&](double u) { return slope(u); }, slope_0 < 0.0);
}

}  // namespace sim
