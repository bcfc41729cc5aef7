// The variables of our own controller as one list (firmware/watch/watch.hpp), wherever that
// controller runs.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "firmware/watch/watch.hpp"

namespace sim {

const std::vector<firmware::WatchedVariable>& watch_list();
std::vector<std::string> watch_names();

/// Empty for a variable that our controller has not.
std::string_view watch_meaning(std::string_view name);

}  // namespace sim
