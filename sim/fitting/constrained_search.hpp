// Least value of a function in the unit cube under constraints, by NLopt.
//
// Deterministic: fixed seed, fixed numbers of evaluations, never a time limit. The function may
// watch the points that it is asked for; all of them lie in the cube.
#pragma once

#include <cstddef>
#include <functional>
#include <vector>

namespace sim {

struct SearchProblem {
    std::size_t dimension = 0;
    std::size_t equality_count = 0;    ///< each must come to 0
    std::size_t inequality_count = 0;  ///< each must be at most 0
    /// Fills `values` (size 1 + equality_count + inequality_count) in this order: the objective,
    /// the equalities, the inequalities. All finite, of the order of 1.
    std::function<void(const double* place, double* values)> evaluate;
};

/// Controlled random search over the whole cube (CRS2 with local mutation) of the objective with
/// broken constraints added as penalties. Returns the best place, which is good to start from.
std::vector<double> search_everywhere(const SearchProblem&, std::vector<double> start,
                                      int most_evaluations);

/// Sequential quadratic programming (SLSQP) with gradients by differences. Returns the place where
/// it stopped, which may break constraints: look.
std::vector<double> search_nearby(const SearchProblem&, std::vector<double> start, int most_steps);

}  // namespace sim
