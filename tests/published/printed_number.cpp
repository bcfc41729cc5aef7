#include "printed_number.hpp"

#include <cmath>

namespace published {

testing::AssertionResult rounds_to(double value, double printed, int decimals) {
    const double half_digit = 0.5 * std::pow(10.0, -decimals);
    // A hair above half a digit, since the decimal `printed` is itself a rounded binary number.
    if (std::abs(value - printed) <= half_digit * (1.0 + 1e-9)) {
        return testing::AssertionSuccess();
    }
    return testing::AssertionFailure()
           << value << " does not round to " << printed << " at " << decimals << " decimals";
}

double degrees(std::complex<double> phasor) {
    return std::arg(phasor) * 180.0 / 3.14159265358979323846;
}

}  // namespace published
