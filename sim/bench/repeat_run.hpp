// Runs starts in a row on one bench: the same plant, the same controller, one clock.
//
//   call on, the scenario's duration, call off, coasting, rest   and again
//
// The rest counts from the end of a start; coasting is a part of it. Pressures, heat, charge, and
// whatever the controller remembers are carried over. A start that fails does not end the series.
// Times of the scenario's [source] (a sag) count from the beginning of the series.
//
// Same scenario, same build: same bits.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "sim/bench/start_result.hpp"
#include "sim/scenario/scenario.hpp"

namespace sim {

struct RepeatPlan {
    int starts = 12;
    double rest_between_s = 0.0;
};

struct RepeatedStart {
    double call_at_s = 0.0;  ///< since the series began
    /// As of a single start, its clock included; without the course, for there may be thousands.
    StartResult start;
    /// Stage, from 1, in which the rotor came up; none in a direct start, or if it did not.
    std::optional<int> stage;
    /// Largest RMS over any 100 ms of the current through the controller's own output, from the
    /// samples that it gets; none in a direct start.
    std::optional<double> sensor_inrush_100ms_rms_A;
    double coasting_s = 0.0;  ///< after it; 0 after the last start
};

struct RepeatResult {
    std::string scenario;
    std::string title;
    RepeatPlan plan;
    bool has_limiter = false;
    bool interrupted = false;  ///< fewer starts than planned, by request
    std::vector<RepeatedStart> starts;
    std::vector<std::string> warnings;  ///< of the scenario

    bool as_expected() const;
};

/// Fewer say nothing about settling. (Engineering judgement.)
inline constexpr int fewest_to_settle = 3;

/// Number, from 1, of the start from which on the 100 ms current varies by less than 5 % of its
/// largest until the end. None if fewer than three starts would bear it out, or if one of them has
/// no such reading. (5 % and three: engineering judgement.)
std::optional<int> settled_after(const RepeatResult& result);

/// Asked before every start after the first.
using GoOn = std::function<bool(int starts_done)>;

/// Throws NumericFailure.
RepeatResult run_repeat(
    const Scenario& scenario, const RepeatPlan& plan, const GoOn& go_on = [](int) { return true; });

}  // namespace sim
