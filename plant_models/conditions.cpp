#include "plant_models/conditions.hpp"

namespace plant_models {

const ParameterTable<Conditions>& Conditions::table() {
    using C = Conditions;
    static const ParameterTable<C> rows = {
        {"ambient_C", &C::ambient_C, -40, 60, 25.0, "air around the unit"},
        {"rest_s", &C::rest_s, 0, 1e6, 300.0, "since the unit last ran"},
        {"oil_warming_K", &C::oil_warming_K, 0, 40, 0.0,
         "what a crankcase heater adds to the oil's temperature at rest"},
    };
    return rows;
}

}  // namespace plant_models
