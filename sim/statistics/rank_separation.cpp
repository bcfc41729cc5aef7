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

/// Hanley and McNeil's variance as Newcombe has it, with the mean of both group sizes in both
/// terms.
double newcombe_variance(double theta, double m, double n) {
    const double others = (m + n) / 2.0 - 1.0;
    return theta * (1.0 - theta) *
           (1.0 + others * (1.0 - theta) / (2.0 - theta) + others * theta / (1.0 + theta)) /
           (m * n);
}

/// The smallest probability for which groups that do not overlap are no surprise.
double lowest_if_apart(double z, double m, double n) {
    double surprising = 0.0;
    double possible = 1.0;
    constexpr int halvings = 60;
    for (int k = 0; k < halvings; ++k) {
        constexpr double half = 0.5;
        const double theta = half * (surprising + possible);
        const double off = 1.0 - theta;
        (off * off > z * z * newcombe_variance(theta, m, n) ? surprising : possible) = theta;
    }
    return possible;
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

    constexpr double half = 0.5;
    const boost::math::normal standard;
    const double z = boost::math::quantile(standard, half + half * confidence);
    RankSeparation result;
    result.probability = mean_of(of_first);
    const double half_a_pair = half / (m * n);
    if (result.probability > 1.0 - half_a_pair) {
        result = {1.0, lowest_if_apart(z, m, n), 1.0};
    } else if (result.probability < half_a_pair) {
        result = {0.0, 0.0, 1.0 - lowest_if_apart(z, m, n)};
    } else {
        const double deviation = std::sqrt(variance_of(of_first) / m + variance_of(of_second) / n);
        const double reach = z * deviation / (result.probability * (1.0 - result.probability));
        const double logit = std::log(result.probability / (1.0 - result.probability));
        result.lowest = from_logit(logit - reach);
        result.highest = from_logit(logit + reach);
    }
    return result;
}

}  // namespace sim
