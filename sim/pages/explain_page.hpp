// The page of an explanation: the story, every change with what came of it, and the waves of the
// start that is explained.
#pragma once

#include "sim/explaining/explanation.hpp"
#include "sim/pages/page.hpp"
#include "sim/pages/start_page.hpp"

namespace sim {

/// `start`: the same start, run with somebody who keeps the waves.
Page explain_page(const Explanation& explanation, const RecordedStart& start);

}  // namespace sim
