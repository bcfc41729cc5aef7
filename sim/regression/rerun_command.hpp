// What somebody types to run one case of a campaign again.
#pragma once

#include <cstdint>
#include <string>

namespace sim {

/// `from`: what --case takes before the "#". `is_series`: more than one start.
std::string rerun_command(const std::string& from, std::int64_t id, bool is_series);

}  // namespace sim
