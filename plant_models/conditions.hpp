// What surrounds the unit when a run begins: the weather, and how long it has stood still.
//
// The unit is taken to have run for long before, and to have been switched off `rest_s` ago:
// pressures and temperatures at time 0 are what such a rest leaves of their running values. This is
// what a practitioner changes first, so it stands in a table of its own.
#pragma once

#include "plant_models/parameter_table.hpp"

namespace plant_models {

struct Conditions {
    double ambient_C = 25.0;
    double rest_s = 300.0;
    double oil_warming_K = 0.0;  ///< by a crankcase heater, above ambient, after a long rest

    static const ParameterTable<Conditions>& table();
};

}  // namespace plant_models
