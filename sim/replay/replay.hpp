// A recording is asked of a controller again, without a plant, and its decisions are compared with
// the recorded ones tick by tick.
//
// The samples are those of then, whatever is decided now: up to the first difference they are what
// the new controller would have met; behind it they tell only what it would have done in the other
// one's place.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "firmware/sequence/state.hpp"
#include "sim/bench/start_bench.hpp"
#include "sim/controllers/controller_port.hpp"
#include "sim/replay/recording.hpp"
#include "sim/scenario/scenario.hpp"

namespace sim {

/// A state that was entered, or its reason changed.
struct DecidedState {
    double time_s = 0.0;  ///< since the recording began, rests included
    firmware::State state{};
    firmware::Reason reason{};
};

struct FirstDifference {
    std::int64_t tick = 0;  ///< since the recording began, rests included
    std::string field;      ///< of the actuator frame; state and reason by themselves
    std::int64_t then = 0;
    std::int64_t now = 0;
};

struct ReplayResult {
    std::string scenario;  ///< that was recorded
    std::int64_t ticks = 0;
    std::int64_t different_ticks = 0;
    std::optional<FirstDifference> first;
    std::vector<DecidedState> then;
    std::vector<DecidedState> now;
    std::string failure;  ///< of a controller outside this program; empty if none

    bool is_same() const { return different_ticks == 0 && failure.empty(); }
};

/// The controller as it was recorded, in this build; or the one of `other`. Throws InputError if
/// there is none. `path` names the recording in messages.
std::unique_ptr<ControllerPort> controller_for(const Recording& recording, const std::string& path,
                                               const Scenario* other);

/// `controller` has just got power; `observer`, which may be null, sees every tick without a plant.
ReplayResult replay(const Recording& recording, ControllerPort& controller, TickObserver* observer);

}  // namespace sim
