// The list of loads. Adding one: write its file beside polynomial.hpp, name it here, and say
// in an overload of `load_model` how its model is made.
#pragma once

#include <utility>
#include <variant>

#include "plant_models/conditions.hpp"
#include "plant_models/loads/polynomial.hpp"
#include "plant_models/loads/reciprocating.hpp"
#include "plant_models/loads/rolling_piston.hpp"
#include "plant_models/loads/scroll.hpp"
#include "plant_models/refrigerant/refrigerant_parameters.hpp"

namespace plant_models {

using AnyLoadParameters = std::variant<PolynomialLoadParameters, ReciprocatingParameters,
                                       RollingPistonParameters, ScrollParameters>;

inline PolynomialLoad load_model(const PolynomialLoadParameters& load,
                                 const RefrigerantParameters& /*refrigerant*/,
                                 const Conditions& /*conditions*/) {
    return PolynomialLoad(load);
}
inline Reciprocating load_model(const ReciprocatingParameters& load,
                                const RefrigerantParameters& refrigerant,
                                const Conditions& conditions) {
    return Reciprocating(load, refrigerant, conditions);
}
inline RollingPiston load_model(const RollingPistonParameters& load,
                                const RefrigerantParameters& refrigerant,
                                const Conditions& conditions) {
    return RollingPiston(load, refrigerant, conditions);
}
inline Scroll load_model(const ScrollParameters& load, const RefrigerantParameters& refrigerant,
                         const Conditions& conditions) {
    return Scroll(load, refrigerant, conditions);
}

}  // namespace plant_models
