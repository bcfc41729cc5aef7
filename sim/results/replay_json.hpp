// What a replay found, as `runup.replay/1`.
#pragma once

#include <nlohmann/json.hpp>

#include "sim/replay/replay.hpp"

namespace sim {

nlohmann::ordered_json replay_json(const ReplayResult& result);

}  // namespace sim
