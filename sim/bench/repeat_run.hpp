// Runs starts in a row on one bench: the same plant, the same controller, one clock.
//
//   call on, the scenario's duration, call off, coasting, rest   and again
//
// The rest counts from the end of a start; coasting is a part of it. Pressures, heat, charge, and
// whatever the controller remembers are carried over. A start that fails does not end the series.
// The scenario's [[change]] tables take effect as soon as the rotor stands in the rest before them.
// Times of the scenario's [source] (a sag) count from the beginning of the series.
//
// Same scenario, same build: same bits.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "sim/bench/regret.hpp"
#include "sim/bench/start_bench.hpp"
#include "sim/bench/start_result.hpp"
#include "sim/scenario/scenario.hpp"

namespace sim {

struct RepeatPlan {
    int starts = 12;
    double rest_between_s = 0.0;  ///< until a change of the scenario gives another
    bool power_cuts = false;      ///< between the starts, the controller's; see RunSettings
};

struct RepeatedStart {
    double call_at_s = 0.0;  ///< since the series began
    /// As of a single start, its clock included; without the course, for there may be thousands.
    StartResult start;
    /// Stage, from 1, in which the rotor came up; none in a direct start, if it did not, or of a
    /// controller that tells nothing of stages.
    std::optional<int> stage;
    /// Largest RMS over any 100 ms of the current through the controller's own output, from the
    /// samples that it gets; none in a direct start.
    std::optional<double> sensor_inrush_100ms_rms_A;
    double coasting_s = 0.0;  ///< after it; 0 after the last start
    /// What the scenario changed before it, in words; empty if nothing.
    std::string changed;
    /// What the controller said as the start began: how it found its memory when it last got power,
    /// and what it had learned by then. None in a direct start, or of a controller that tells no
    /// such thing.
    struct Memory {
        firmware::Recovery found{};
        int learned_level_permille = 0;  ///< of its ladder; 1000: the settings'
        bool settled = false;
    };
    std::optional<Memory> memory;
};

/// What a series does to the controller's flash.
struct StoreWear {
    std::int64_t word_writes = 0;
    std::int64_t erases = 0;            ///< of both pages
    std::int64_t erases_of_a_page = 0;  ///< of the one that was erased more often
};

struct RepeatResult {
    std::string scenario;
    std::string title;
    RepeatPlan plan;
    bool has_limiter = false;
    bool interrupted = false;  ///< fewer starts than planned, by request
    std::vector<RepeatedStart> starts;
    std::optional<Regret> regret;       ///< if it was measured, after the last start and a rest
    StoreWear store_wear;               ///< with the rest after each start but the last
    std::vector<std::string> warnings;  ///< of the scenario

    bool as_expected() const;
};

/// Fewer say nothing about settling. (Engineering judgement.)
inline constexpr int fewest_to_settle = 3;

/// Number, from 1, of the start from which on the 100 ms current varies by less than 5 % of its
/// largest until the end. None if fewer than three starts would bear it out, or if one of them has
/// no such reading. (5 % and three: engineering judgement.)
std::optional<int> current_settled_after(const RepeatResult& result);

/// The same of the ladder that the starts were made with, if the controller has learned anything at
/// all: the world may go on changing when the ladder no longer does. None if it has not.
std::optional<int> ladder_settled_after(const RepeatResult& result);

/// Of the ladder, for a controller that learns; else of the current.
std::optional<int> settled_after(const RepeatResult& result);
bool has_learned(const RepeatResult& result);

/// Out of 10,000 starts, if all went as these.
double per_10000_starts(std::int64_t count, const RepeatResult& result);

/// Of the erases that a page of flash is good for (flash_store.hpp): the share that 10,000 starts
/// use up on the page that is erased more often.
double endurance_share(const RepeatResult& result);

/// Asked before every start after the first.
using GoOn = std::function<bool(int starts_done)>;

/// Called when the series is over and the bench has rested as before another start, with the
/// scenario as it is by then.
using Afterwards = std::function<std::optional<Regret>(StartBench&, const Scenario&)>;

/// Asked before every start for somebody who looks at all of its ticks, or null: with the start's
/// number, from 1, and the scenario as it is by then.
using Watchers = std::function<TickObserver*(int start_number, const Scenario& now)>;

/// `listener`, which may be null, is told what the controller goes through, rests included.
/// Throws NumericFailure, and InputError for a change that leaves the bounds of a table or finds
/// the rotor still turning.
RepeatResult run_repeat(
    const Scenario& scenario, const RepeatPlan& plan, const GoOn& go_on = [](int) { return true; },
    const Afterwards& afterwards = {}, const Watchers& watchers = {},
    PortListener* listener = nullptr);

}  // namespace sim
