// The least line current that any ladder of a scenario's shape starts its compressor on.
//
// "Of its shape": as many stages as the scenario's ladder, targets and dwells free inside the
// controller's bounds. The search may look at the plant's truth, which no controller can: it is the
// yardstick for one that learns. A ladder counts if the rotor comes up within the time allowed, no
// monitor is broken, and the run ends running.
//
// First a scan of the whole ladder in proportion, which finds the valley; then a controlled random
// search over every target and dwell from the best of it. Deterministic.
#pragma once

#include <functional>
#include <vector>

#include "sim/bench/start_result.hpp"
#include "sim/scenario/scenario.hpp"

namespace sim {

struct LadderTrial {
    std::vector<firmware::StageSettings> stages;
    bool counts = false;  ///< came up in time, safely
    double inrush_100ms_rms_A = 0.0;
    double time_to_speed_s = 0.0;  ///< 0 where it never came up
};

struct LadderSearch {
    LadderTrial given;         ///< the scenario's own ladder
    LadderTrial best;          ///< `counts` is false if none was found
    int starts = 0;            ///< simulated
    bool ended_early = false;  ///< by request
};

/// Longest time from the call to 90 % of synchronous speed that counts as "in time".
inline constexpr double in_time_s = 1.0;

/// A start counts if it came up within in_time_s, ended running, and broke no monitor.
bool is_in_time(const StartResult& run, const Scenario& scenario);

/// Runs one start of a scenario.
using Start = std::function<StartResult(const Scenario&)>;
/// On the scenario's own plant.
StartResult start_from_the_beginning(const Scenario& scenario);

/// `scenario` must have a built-in limiter. `go_on` is told the number of starts done and to do,
/// and ends the search by returning false; what was found until then stands.
LadderSearch search_ladder(const Scenario& scenario, int most_starts,
                           const std::function<bool(int done, int of)>& go_on,
                           const Start& start = start_from_the_beginning);

}  // namespace sim
