// Wilcoxon's signed-rank test: do the differences of pairs lean to one side?
//
// The differences that are not zero are ranked by their size (midranks where sizes are equal), and
// the ranks of the positive and of the negative ones are summed up. If old and new could as well be
// exchanged within every pair, each rank falls to either side with probability 1/2. No distribution
// is assumed. Zeros say nothing about the side and are left out, as in the original.
//
//   up to 100 differences   exact, by counting the sums of all 2^n assignments, with the ties as
//   they
//                           are (the sums of twice the midranks are whole numbers)
//   more                    normal approximation with the ties' variance and half a rank of
//                           continuity: mean n (n + 1) / 4,
//                           variance n (n + 1) (2 n + 1) / 24 - sum (t^3 - t) / 48
//
// Source: F. Wilcoxon, Biometrics Bulletin 1 (1945), p. 80; M. Hollander, D. A. Wolfe,
// Nonparametric Statistical Methods, section 3.1 (memory). 100: engineering judgement; the tests
// hold both ways against each other there.
#pragma once

#include <cstddef>
#include <vector>

namespace sim {

struct SignedRank {
    std::size_t positive = 0;
    std::size_t negative = 0;
    std::size_t zero = 0;
    double positive_ranks = 0.0;  ///< sum
    double negative_ranks = 0.0;
    double p_value = 1.0;  ///< two-sided; 1 without differences
    bool exact = true;

    /// Rank-biserial correlation of pairs: share of the rank sum on the positive side less that on
    /// the negative. 1: every difference is positive; -1: negative; 0 without differences.
    double lean() const;
};

SignedRank signed_rank_test(const std::vector<double>& differences);

/// Most differences that are counted exactly.
inline constexpr std::size_t most_exact_differences = 100;

/// For the tests: the same, one way or the other.
double exact_signed_rank_p(const std::vector<double>& differences_not_zero);
double approximate_signed_rank_p(const std::vector<double>& differences_not_zero);

}  // namespace sim
