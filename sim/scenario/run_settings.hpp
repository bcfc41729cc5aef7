// Table [run]: how long the bench watches, and what happens at the thermostat meanwhile.
//
// Times count from the beginning of the run, at which the supply is on; in a series of starts, from
// the beginning of each. The same scenario and seed
// give the same run.
#pragma once

#include <string_view>

#include "plant_models/parameter_table.hpp"

namespace sim {

/// Bounds of a rest between two starts.
inline constexpr double shortest_rest_between_s = 0.0;
inline constexpr double longest_rest_between_s = 86400.0;

struct RunSettings {
    double duration_s = 0.0;         ///< simulated time
    int seed = 0;                    ///< of the random numbers
    double initial_speed_rpm = 0.0;  ///< of the rotor at time 0; negative: backwards
    double call_on_s = 0.0;          ///< the call for cooling begins
    double call_off_s = 0.0;         ///< the call for cooling ends; 0: it stays to the end
    double rest_between_s = 0.0;     ///< in a series: from the end of a start to the next
    /// In a series: whether the controller keeps its power meanwhile; "on" or "off".
    std::string_view power_between_starts;
    double power_off_after_s = 0.0;  ///< if not: from the end of a start

    bool cuts_power_between_starts() const { return power_between_starts == "off"; }

    static const plant_models::ParameterTable<RunSettings>& table();
    static const plant_models::WordTable<RunSettings>& word_table();
    /// One sentence that says what is wrong between fields that are each in bounds; empty if none.
    std::string_view inconsistency() const;
};

}  // namespace sim
