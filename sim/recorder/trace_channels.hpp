// The table of trace channels: one list feeds the header and the rows of every trace format.
//
// Units end the names. Channels that only exist with a limiter or with some supply appear only
// there. Adding a channel: one line in trace_channels.cpp.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/bench/tick_view.hpp"
#include "sim/recorder/watched_channels.hpp"

namespace sim {

/// Where a channel comes from.
enum class TraceOrigin { plant, commands, controller, watch };

struct TraceChannel {
    std::string name;
    /// Digits after the point, enough for the channel's physical resolution.
    int digits = 0;
    std::function<double(const TickView&)> value;
    TraceOrigin origin = TraceOrigin::plant;
    /// Of a whole number: how many hold it, with its sign; 1: a flag. 0: not a whole number.
    int bits = 0;
};

/// Everything of a run. `watched`: names of the port's variables, each with its number there.
/// `tells_only_states`: the controller is somebody else's (TickView::tells_only_states); what it
/// does not tell has no channel, and state and reason are -1 if it does not tell them.
std::vector<TraceChannel> trace_channels(const std::vector<std::string_view>& channel_names,
                                         bool has_limiter,
                                         const std::vector<WatchedChannel>& watched = {},
                                         bool tells_only_states = false);

/// The same without a plant.
std::vector<TraceChannel> controller_trace_channels(const std::vector<WatchedChannel>& watched);

}  // namespace sim
