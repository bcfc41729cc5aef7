#include "sim/statistics/median_interval.hpp"

#include <algorithm>
#include <boost/math/distributions/binomial.hpp>
#include <cmath>
#include <cstddef>

namespace sim {

namespace {

constexpr double in_each_tail = 0.025;

/// From 1; 0: not even the smallest and the largest reach far enough.
std::size_t rank_of_the_bound(std::size_t n) {
    const boost::math::binomial heads(static_cast<double>(n), 0.5);
    const auto fits = [&heads](std::size_t k) {
        return boost::math::cdf(heads, static_cast<double>(k - 1)) <= in_each_tail;
    };
    std::size_t good = 0;
    std::size_t bad = n / 2 + 1;
    while (bad - good > 1) {
        const std::size_t middle = good + (bad - good) / 2;
        (fits(middle) ? good : bad) = middle;
    }
    return good;
}

}  // namespace

double quantile_of_sorted(const std::vector<double>& sorted, double share) {
    const double place = share * static_cast<double>(sorted.size() - 1);
    const auto below = static_cast<std::size_t>(std::floor(place));
    const std::size_t above = std::min(below + 1, sorted.size() - 1);
    const double part = place - static_cast<double>(below);
    return sorted[below] + part * (sorted[above] - sorted[below]);
}

std::optional<MedianInterval> median_with_interval(std::vector<double> values) {
    if (values.empty()) {
        return std::nullopt;
    }
    std::sort(values.begin(), values.end());
    constexpr double half = 0.5;
    MedianInterval result{quantile_of_sorted(values, half), std::nullopt};
    const std::size_t k = rank_of_the_bound(values.size());
    if (k > 0) {
        result.interval = {values[k - 1], values[values.size() - k]};
    }
    return result;
}

}  // namespace sim
