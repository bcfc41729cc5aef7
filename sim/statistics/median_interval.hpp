// A median, and how well so many values know it.
//
// The interval reaches from the k-th smallest to the k-th largest value, where k is the largest for
// which a binomial of n and 1/2 lies under k with at most 2.5 %: at least 95 %, whatever the
// distribution. Under six values there is none.
// Source: Hollander and Wolfe, Nonparametric Statistical Methods, section 3.6 (memory).
#pragma once

#include <optional>
#include <utility>
#include <vector>

namespace sim {

struct MedianInterval {
    double median = 0.0;
    /// Lowest and highest; none if there are too few values.
    std::optional<std::pair<double, double>> interval;
};

/// None without values. `values` are all finite.
std::optional<MedianInterval> median_with_interval(std::vector<double> values);

/// The value below which the share `share` (0 to 1) of `sorted` lies, linear between neighbours.
/// `sorted` is not empty.
double quantile_of_sorted(const std::vector<double>& sorted, double share);

}  // namespace sim
