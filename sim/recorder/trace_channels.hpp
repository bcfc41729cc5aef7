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

namespace sim {

struct TraceChannel {
    std::string name;
    /// Digits after the point, enough for the channel's physical resolution.
    int digits = 0;
    std::function<double(const TickView&)> value;
};

/// `tells_only_states`: the limiter's controller is somebody else's (TickView::tells_only_states);
/// what it does not tell has no channel, and state and reason are -1 if it does not tell them.
std::vector<TraceChannel> trace_channels(const std::vector<std::string_view>& channel_names,
                                         bool has_limiter, bool tells_only_states = false);

}  // namespace sim
