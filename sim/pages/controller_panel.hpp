// The controller's states and stages over time, in steps with a word each.
#pragma once

#include "sim/bench/start_result.hpp"
#include "sim/pages/plot.hpp"

namespace sim {

/// Only states that occurred, in the order of a start; each stage of the ladder has a line of its
/// own.
Panel controller_panel(const StartResult& result, double duration_s);

}  // namespace sim
