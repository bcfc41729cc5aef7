// All that an answer of runup size consists of, for whoever prints it.
#pragma once

#include <string>
#include <vector>

#include "sim/sizing/decision.hpp"
#include "sim/sizing/sized_unit.hpp"
#include "sim/sizing/sizing_run.hpp"

namespace sim {

struct SizeReport {
    SizedUnit sized;
    SizingPlan plan;
    bool not_backed_up = false;  ///< only utilities were looked at
    CostAssumptions costs;
    bool costs_are_examples = false;  ///< no file of prices was given
    SizingFindings findings;
    Decision decision;
};

}  // namespace sim
