// What chance may decide in a case: one list for the reader, for the reference and for drawing.
#pragma once

#include <string_view>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace sim {

struct SpreadInput {
    std::string_view name;  ///< ends in its unit
    double lowest;
    double highest;
    /// Of what the scenario gives. Two spreads of the same factor multiply; of another input a case
    /// takes one only.
    bool is_factor;
    std::string_view meaning;
    /// False, without a change, if the scenario has nothing for it to act on. `as_new`: its motor
    /// before anything was drawn.
    bool (*apply)(Scenario& scenario, const plant_models::MotorParameters& as_new, double value);
};

/// In the order in which they are applied.
const std::vector<SpreadInput>& spread_inputs();

/// Null if there is none of this name.
const SpreadInput* spread_input_named(std::string_view name);

}  // namespace sim
