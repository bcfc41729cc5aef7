#include "sim/statistics/rank_separation.hpp"

#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <cstddef>

#include "sim/statistics/midranks.hpp"

namespace sim {

namespace {

double mean_of(const std::vector<double>& values) {
    double sum = 0.0;
    for (const double value : values) {
        sum += value;
    }
    return sum / static_cast<double>(values.size());
}

double variance_of(const std::vector<double>& values) {
    const double mean = mean_of(values);
    double sum = 0.0;
    for (const double value : values) {
        sum += (value - mean) * (value - mean);
    }
    return sum / static_cast<double>(values.size() - 1);
}

/// Of each value of `group`, whose ranks among all begin at `offset`: the share of the other group
/// that lies below it.
std::vector<double> shares_below(const std::vector<double>& group,
                                 const std::vector<double>& ranks_of_all, std::size_t offset,
                                 std::size_t others) {
    const std::vector<double> own = midranks(group);
    std::vector<double> shares(group.size());
    for (std::size_t k = 0; k < group.size(); ++k) {
        shares[k] = (ranks_of_all[offset + k] - own[k]) / static_cast<double>(others);
    }
    return shares;
}

double hanley_mcneil_variance(double a, double m, double n) {
    const double q1 = a / (2.0 - a);
    const double q2 = 2.0 * a * a / (1.0 + a);
    return (a * (1.0 - a) + (m - 1.0) * (q1 - a * a) + (n - 1.0) * (q2 - a * a)) / (m * n);
}

double from_logit(double logit) {
    return 1.0 / (1.0 + std::exp(-logit));
}

}  // namespace

std::optional<RankSeparation> rank_separation(const std::vector<double>& first,
                                              const std::vector<double>& second,
                                              double confidence) {
    if (first.size() < 2 || second.size() < 2) {
        return std::nullopt;
    }
    std::vector<double> all = first;
    all.insert(all.end(), second.begin(), second.end());
    const std::vector<double> ranks = midranks(all);
    const std::vector<double> of_first = shares_below(first, ranks, 0, second.size());
    const std::vector<double> of_second = shares_below(second, ranks, first.size(), first.size());
    const auto m = static_cast<double>(first.size());
    const auto n = static_cast<double>(second.size());

    RankSeparation result;
    result.probability = mean_of(of_first);
    double centre = result.probability;
    double variance = variance_of(of_first) / m + variance_of(of_second) / n;
    const double half_a_pair = 0.5 / (m * n);
    const bool apart = centre < half_a_pair || centre > 1.0 - half_a_pair;
    if (apart) {
        centre = centre < half_a_pair ? half_a_pair : 1.0 - half_a_pair;
        variance = hanley_mcneil_variance(centre, m, n);
    }
    const boost::math::normal standard;
    constexpr double half = 0.5;
    const double z = boost::math::quantile(standard, half + half * confidence);
    const double reach = z * std::sqrt(variance) / (centre * (1.0 - centre));
    const double logit = std::log(centre / (1.0 - centre));
    result.lowest = from_logit(logit - reach);
    result.highest = from_logit(logit + reach);
    if (apart) {
        (result.probability < half ? result.lowest : result.highest) = result.probability;
    }
    return result;
}

}  // namespace sim
