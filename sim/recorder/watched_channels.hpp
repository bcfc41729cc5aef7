// Which of a controller's variables are watched: chosen by name from what its port offers.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace sim {

struct WatchedChannel {
    std::string name;
    std::size_t index = 0;  ///< among ControllerPort::watchable()
};

/// `list`: names with commas between them; the name of a part alone, as `line`, stands for all that
/// begins with it and a point. In the order of the list, each once. Throws InputError for a name
/// that is not there.
std::vector<WatchedChannel> choose_watched(const std::string& list,
                                           const std::vector<std::string>& watchable);

}  // namespace sim
