// The optimiser on problems whose solution is known.
#include "sim/fitting/constrained_search.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace {

/// Nearest place to (0.9, 0.9) on the circle of radius 0.5, right of y = x/2: the circle's (a, a).
sim::SearchProblem nearest_on_a_circle() {
    sim::SearchProblem problem;
    problem.dimension = 2;
    problem.equality_count = 1;
    problem.inequality_count = 1;
    problem.evaluate = [](const double* at, double* values) {
        values[0] = std::pow(at[0] - 0.9, 2) + std::pow(at[1] - 0.9, 2);
        values[1] = at[0] * at[0] + at[1] * at[1] - 0.25;
        values[2] = 0.5 * at[0] - at[1];
    };
    return problem;
}

TEST(ConstrainedSearch, FindsThePlaceWhereTheConstraintsHold) {
    const auto place = search_nearby(nearest_on_a_circle(), {0.45, 0.3}, 100);
    EXPECT_NEAR(place[0], 0.5 / std::sqrt(2.0), 1e-5);
    EXPECT_NEAR(place[1], 0.5 / std::sqrt(2.0), 1e-5);
}

TEST(ConstrainedSearch, StopsAtAnInequalityThatBinds) {
    sim::SearchProblem problem = nearest_on_a_circle();
    problem.evaluate = [](const double* at, double* values) {
        values[0] = std::pow(at[0] - 0.9, 2) + std::pow(at[1] - 0.9, 2);
        values[1] = at[0] * at[0] + at[1] * at[1] - 0.25;
        values[2] = 2.0 * at[0] - at[1];
    };
    const auto place = search_nearby(problem, {0.2, 0.4}, 100);
    EXPECT_NEAR(place[0], 0.5 / std::sqrt(5.0), 1e-5);
    EXPECT_NEAR(place[1], 1.0 / std::sqrt(5.0), 1e-5);
}

TEST(ConstrainedSearch, EverywhereGetsOutOfAFalseValley) {
    sim::SearchProblem problem;
    problem.dimension = 2;
    // A wide valley at (0.8, 0.8) and a deeper one at (0.2, 0.3).
    problem.evaluate = [](const double* at, double* values) {
        const auto valley = [at](double x, double y, double width) {
            return std::exp(-(std::pow(at[0] - x, 2) + std::pow(at[1] - y, 2)) / (width * width));
        };
        values[0] = -valley(0.8, 0.8, 0.3) - 2.0 * valley(0.2, 0.3, 0.2);
    };
    const auto place = search_everywhere(problem, {0.8, 0.7}, 3000);
    EXPECT_NEAR(place[0], 0.2, 0.02);
    EXPECT_NEAR(place[1], 0.3, 0.02);
}

TEST(ConstrainedSearch, NeverLooksOutsideTheCubeAndRepeatsItself) {
    sim::SearchProblem problem = nearest_on_a_circle();
    std::vector<double> seen;
    bool all_inside = true;
    problem.evaluate = [&, inner = problem.evaluate](const double* at, double* values) {
        all_inside = all_inside && at[0] >= 0 && at[0] <= 1 && at[1] >= 0 && at[1] <= 1;
        seen.insert(seen.end(), at, at + 2);
        inner(at, values);
    };
    search_everywhere(problem, {0.0, 1.0}, 1000);
    search_nearby(problem, {1.0, 0.0}, 100);
    const std::vector<double> first = seen;
    seen.clear();
    search_everywhere(problem, {0.0, 1.0}, 1000);
    search_nearby(problem, {1.0, 0.0}, 100);
    EXPECT_TRUE(all_inside);
    EXPECT_EQ(first, seen);
}

}  // namespace
