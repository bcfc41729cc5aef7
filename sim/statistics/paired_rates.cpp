#include "sim/statistics/paired_rates.hpp"

#include <algorithm>
#include <boost/math/distributions/binomial.hpp>
#include <cmath>

#include "sim/statistics/interval.hpp"

namespace sim {

namespace {

constexpr double z = two_sided_95;

Interval agresti_min(const PairedRates& rates) {
    const double n = static_cast<double>(rates.pairs()) + 2.0;
    const double up = static_cast<double>(rates.newly_passed) + 0.5;
    const double down = static_cast<double>(rates.newly_failed) + 0.5;
    const double lean = up - down;
    return {lean / n, z * std::sqrt(up + down - lean * lean / n) / n};
}

}  // namespace

std::int64_t PairedRates::pairs() const {
    return both_passed + newly_failed + newly_passed + both_failed;
}

void PairedRates::count(bool old_passed, bool new_passed) {
    if (old_passed) {
        ++(new_passed ? both_passed : newly_failed);
    } else {
        ++(new_passed ? newly_passed : both_failed);
    }
}

double PairedRates::difference() const {
    return pairs() == 0
               ? 0.0
               : static_cast<double>(newly_passed - newly_failed) / static_cast<double>(pairs());
}

double PairedRates::difference_lowest() const {
    if (pairs() == 0) {
        return -1.0;
    }
    const Interval interval = agresti_min(*this);
    return std::max(-1.0, interval.centre - interval.half);
}

double PairedRates::difference_highest() const {
    if (pairs() == 0) {
        return 1.0;
    }
    const Interval interval = agresti_min(*this);
    return std::min(1.0, interval.centre + interval.half);
}

double PairedRates::p_value() const {
    const std::int64_t changed = newly_failed + newly_passed;
    if (changed == 0) {
        return 1.0;
    }
    const boost::math::binomial either_way(static_cast<double>(changed), 0.5);
    const auto fewer = static_cast<double>(std::min(newly_failed, newly_passed));
    return std::min(1.0, 2.0 * boost::math::cdf(either_way, fewer));
}

}  // namespace sim
