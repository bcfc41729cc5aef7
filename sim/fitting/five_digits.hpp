// Results are rounded before they are judged and printed, so that what a reader copies from a page
// is exactly what the page speaks of.
#pragma once

#include <cmath>

namespace sim {

/// The nearest number with five significant digits.
inline double five_digits(double value) {
    if (value == 0.0) {
        return 0.0;
    }
    const double decimals = 4.0 - std::floor(std::log10(std::abs(value)));
    // Never by a power below 1, which has no exact binary form.
    const double power = std::pow(10.0, std::abs(decimals));
    return decimals >= 0.0 ? std::round(value * power) / power : std::round(value / power) * power;
}

}  // namespace sim
