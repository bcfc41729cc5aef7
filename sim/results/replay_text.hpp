// What a replay found, for people.
#pragma once

#include <string>

#include "sim/replay/replay.hpp"

namespace sim {

std::string replay_text(const ReplayResult& result);
/// One line.
std::string replay_verdict(const ReplayResult& result);

}  // namespace sim
