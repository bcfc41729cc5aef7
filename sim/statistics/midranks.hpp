// Ranks from 1, in the order of size; equal values share the mean of their ranks.
#pragma once

#include <vector>

namespace sim {

/// One rank per value, in the order of `values`, all of which are finite.
std::vector<double> midranks(const std::vector<double>& values);

/// Of every group of equal values, its size cubed less its size, summed up: what ties take off the
/// variance of a rank sum.
double tie_term(const std::vector<double>& values);

}  // namespace sim
