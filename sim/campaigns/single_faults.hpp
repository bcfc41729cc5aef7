// Every single fault that a unit can have, each in the degrees that differ in kind. What a campaign
// walks over.
#pragma once

#include <string>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace sim {

struct SingleFault {
    std::string name;  ///< its kind, and what else tells it from others of that kind
    Fault fault;       ///< from the beginning of the run on; a campaign moves it
    /// Not a thing that happens in the middle of a start.
    bool only_from_the_beginning = false;
};

/// Those of which the scenario has the part.
std::vector<SingleFault> single_faults(const Scenario& scenario);

}  // namespace sim
