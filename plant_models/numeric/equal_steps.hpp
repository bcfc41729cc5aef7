// A time cut into equal steps that are no longer than a bound.
#pragma once

#include <cmath>

namespace plant_models {

struct EqualSteps {
    int count = 0;  ///< 0 for a time that is not positive
    double length_s = 0.0;
};

inline EqualSteps equal_steps(double duration_s, double longest_s) {
    if (duration_s <= 0.0) {
        return {};
    }
    const int count = static_cast<int>(std::ceil(duration_s / longest_s));
    return {count, duration_s / count};
}

}  // namespace plant_models
