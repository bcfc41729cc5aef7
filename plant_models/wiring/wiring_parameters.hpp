// A scenario's [wiring]: the conductors between the supply and the unit. It comes on top of the
// impedance that the supply itself has.
//
//   service   from the transformer or the generator to the panel
//   branch    from the panel to the unit
//
// Lengths are one way; the current goes there and back, so each counts twice. Length 0 (default)
// means that there is none. Both runs are of one material and one temperature.
//
// Default temperature 75 C: the one for which the trade's tables and voltage-drop rules are made.
// It is the temperature at full rated current; a run that lies at 30 C has 15 % less resistance.
#pragma once

#include <string_view>

#include "plant_models/parameter_table.hpp"
#include "plant_models/wiring/series_impedance.hpp"

namespace plant_models {

struct WiringParameters {
    std::string_view service_size = "none";
    std::string_view branch_size = "none";
    std::string_view material = "copper";
    double service_length_m = 0.0;  ///< one way
    double branch_length_m = 0.0;   ///< one way
    double conductor_temperature_C = 75.0;

    static const ParameterTable<WiringParameters>& table();
    static const WordTable<WiringParameters>& word_table();
    /// One sentence that says what is wrong between fields that are each in bounds; empty if none.
    std::string_view inconsistency() const;
};

/// What both runs put in series with the supply. The parameters must be consistent.
SeriesImpedance series_impedance(const WiringParameters& wiring);

}  // namespace plant_models
