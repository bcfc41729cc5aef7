// Many tests at once: with 40 of them at 5 %, two would find something where nothing is.
//
// Holm's step-down: the k-th smallest of m p-values is multiplied by m - k + 1, and none may be
// less than one before it. What is still under 5 % is found with at most 5 % of risk that anything
// at all is found by chance, however the tests hang together (figures of one start do). Source: S.
// Holm, Scand. J. Statist. 6 (1979), p. 65 (memory).
#pragma once

#include <vector>

namespace sim {

/// In the order of `p_values`.
std::vector<double> holm_adjusted(const std::vector<double>& p_values);

}  // namespace sim
