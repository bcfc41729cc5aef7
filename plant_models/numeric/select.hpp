// Choosing without branching, so that a right-hand side written over a scalar type can later run
// several starts in the lanes of one SIMD register: such a type brings its own `select`.
#pragma once

namespace plant_models {

inline double select(bool condition, double when_true, double when_false) {
    return condition ? when_true : when_false;
}

template <class Real>
Real clamp(const Real& value, const Real& lowest, const Real& highest) {
    return select(value < lowest, lowest, select(value > highest, highest, value));
}

template <class Real>
Real magnitude(const Real& value) {
    return select(value < Real(0.0), -value, value);
}

}  // namespace plant_models
