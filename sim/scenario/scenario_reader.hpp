// Reads a scenario file (TOML). Either the whole of it is right, or one InputError names the file,
// the line, the key, and what would be accepted; nothing is guessed and nothing is ignored.
//
// A library with a controller ([limiter] kind = "library") is loaded once, in a process of its own,
// to see whether it can be used.
//
// The tables and keys are those of scenario_tables.hpp; `runup keys` prints them.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "sim/files/input_error.hpp"
#include "sim/scenario/scenario.hpp"

namespace sim {

/// Larger files are refused after reading this much.
inline constexpr std::size_t most_scenario_bytes = std::size_t{1024} * 1024;

/// Reads the file at `path`, a pipe, or standard input ("-").
Scenario read_scenario(const std::string& path);

/// Reads a scenario from its text; `file` names it in messages and gives the scenario its name.
Scenario parse_scenario(std::string_view text, const std::string& file);

/// What an entry of the library gives by itself, title included; tables that it lacks keep their
/// defaults, so this is for looking at it, not for running it.
Scenario parse_library_entry(const LibraryEntry& entry);

}  // namespace sim
