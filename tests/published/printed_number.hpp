// Comparing a computed number with one printed to a few digits: it must round to what is printed.
#pragma once

#include <gtest/gtest.h>

#include <complex>

namespace published {

/// Passes when `value`, rounded to `decimals` places, is `printed`.
testing::AssertionResult rounds_to(double value, double printed, int decimals);

double degrees(std::complex<double> phasor);

}  // namespace published
