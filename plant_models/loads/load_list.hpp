// The list of loads. Adding one: write its file beside polynomial.hpp, name it here.
#pragma once

#include <variant>

#include "plant_models/loads/polynomial.hpp"

namespace plant_models {

using AnyLoadParameters = std::variant<PolynomialLoadParameters>;

}  // namespace plant_models
