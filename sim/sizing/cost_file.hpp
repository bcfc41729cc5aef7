// Reads a file of prices and sun (TOML): the table [costs], and as many [[supply]] as wanted, each
// with a name of the library and its price. Both may be left out. Faults are InputErrors that name
// the file, the line, the key, and what would be accepted.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "sim/files/input_error.hpp"
#include "sim/sizing/cost_assumptions.hpp"

namespace sim {

/// Larger files are refused after reading this much.
inline constexpr std::size_t most_cost_bytes = std::size_t{64} * 1024;

/// Reads the file at `path`, a pipe, or standard input ("-").
CostAssumptions read_costs(const std::string& path);

/// The same from its text; `file` names it in messages.
CostAssumptions parse_costs(std::string_view text, const std::string& file);

/// Every key of the file with what it accepts, its default and its meaning; plain text of lines.
std::string describe_cost_keys();

}  // namespace sim
