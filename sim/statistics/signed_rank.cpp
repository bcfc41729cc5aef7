#include "sim/statistics/signed_rank.hpp"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <cmath>

#include "sim/statistics/midranks.hpp"

namespace sim {

namespace {

std::vector<double> sizes_of(const std::vector<double>& differences) {
    std::vector<double> sizes;
    sizes.reserve(differences.size());
    for (const double difference : differences) {
        sizes.push_back(std::abs(difference));
    }
    return sizes;
}

double smaller_side(const std::vector<double>& differences, const std::vector<double>& ranks) {
    double positive = 0.0;
    double negative = 0.0;
    for (std::size_t k = 0; k < ranks.size(); ++k) {
        (differences[k] > 0.0 ? positive : negative) += ranks[k];
    }
    return std::min(positive, negative);
}

}  // namespace

double SignedRank::lean() const {
    const double all = positive_ranks + negative_ranks;
    return all > 0.0 ? (positive_ranks - negative_ranks) / all : 0.0;
}

double exact_signed_rank_p(const std::vector<double>& differences_not_zero) {
    const std::vector<double> ranks = midranks(sizes_of(differences_not_zero));
    const auto doubled = [](double rank) {
        return static_cast<std::size_t>(std::lround(2 * rank));
    };
    // share[s]: how many of the 2^n assignments bring the doubled sum s to the positive side, as a
    // share of all.
    std::vector<double> share(1, 1.0);
    for (const double rank : ranks) {
        const std::size_t step = doubled(rank);
        std::vector<double> next(share.size() + step, 0.0);
        for (std::size_t s = 0; s < share.size(); ++s) {
            next[s] += 0.5 * share[s];
            next[s + step] += 0.5 * share[s];
        }
        share = std::move(next);
    }
    const std::size_t reached = doubled(smaller_side(differences_not_zero, ranks));
    double one_side = 0.0;
    for (std::size_t s = 0; s <= reached; ++s) {
        one_side += share[s];
    }
    return std::min(1.0, 2.0 * one_side);
}

double approximate_signed_rank_p(const std::vector<double>& differences_not_zero) {
    if (differences_not_zero.empty()) {
        return 1.0;
    }
    const std::vector<double> sizes = sizes_of(differences_not_zero);
    const auto n = static_cast<double>(sizes.size());
    const double mean = n * (n + 1.0) / 4.0;
    const double variance = n * (n + 1.0) * (2.0 * n + 1.0) / 24.0 - tie_term(sizes) / 48.0;
    constexpr double continuity = 0.5;
    const double reached = smaller_side(differences_not_zero, midranks(sizes));
    const double below = std::max(0.0, mean - reached - continuity);
    const boost::math::normal standard;
    return 2.0 * boost::math::cdf(standard, -below / std::sqrt(variance));
}

SignedRank signed_rank_test(const std::vector<double>& differences) {
    SignedRank result;
    std::vector<double> leaning;
    for (const double difference : differences) {
        if (difference > 0.0 || difference < 0.0) {
            leaning.push_back(difference);
        }
    }
    result.zero = differences.size() - leaning.size();
    const std::vector<double> ranks = midranks(sizes_of(leaning));
    for (std::size_t k = 0; k < leaning.size(); ++k) {
        if (leaning[k] > 0.0) {
            ++result.positive;
            result.positive_ranks += ranks[k];
        } else {
            ++result.negative;
            result.negative_ranks += ranks[k];
        }
    }
    result.exact = leaning.size() <= most_exact_differences;
    result.p_value =
        result.exact ? exact_signed_rank_p(leaning) : approximate_signed_rank_p(leaning);
    return result;
}

}  // namespace sim
