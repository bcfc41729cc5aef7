#include "sim/statistics/success_rate.hpp"

#include <algorithm>
#include <cmath>

#include "sim/statistics/interval.hpp"

namespace sim {

namespace {

constexpr double z = two_sided_95;

Interval wilson(double share, double trials) {
    const double widening = 1.0 + z * z / trials;
    return {
        (share + z * z / (2.0 * trials)) / widening,
        z / widening * std::sqrt(share * (1.0 - share) / trials + z * z / (4.0 * trials * trials))};
}

}  // namespace

double SuccessRate::share() const {
    return trials == 0 ? 0.0 : static_cast<double>(successes) / trials;
}

double SuccessRate::lowest() const {
    if (trials == 0) {
        return 0.0;
    }
    const Interval interval = wilson(share(), trials);
    return std::max(interval.centre - interval.half, 0.0);
}

double SuccessRate::highest() const {
    if (trials == 0) {
        return 1.0;
    }
    const Interval interval = wilson(share(), trials);
    return std::min(interval.centre + interval.half, 1.0);
}

}  // namespace sim
