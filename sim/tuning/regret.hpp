// Measures regret: one more start with what the controller has learned, against the best ladder for
// that very start. The search begins every one of its starts on a copy of the same plant, with the
// same heat, pressures and phase, so nothing but the ladder differs.
#pragma once

#include <functional>

#include "sim/bench/regret.hpp"
#include "sim/bench/start_bench.hpp"

namespace sim {

/// `bench` rests, ready for another start, which is then made. The scenario is the present one,
/// with a built-in limiter. `go_on` as in search_ladder.
Regret measure_regret(StartBench& bench, const Scenario& scenario, int most_starts,
                      const std::function<bool(int done, int of)>& go_on);

}  // namespace sim
