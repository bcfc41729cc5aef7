// Reads a nameplate file (TOML) with its one table [nameplate]. Either the whole of it is right, or
// one InputError names the file, the line, the key, and what would be accepted.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>

#include "sim/files/input_error.hpp"
#include "sim/fitting/nameplate.hpp"

namespace sim {

/// Larger files are refused after reading this much.
inline constexpr std::size_t most_nameplate_bytes = std::size_t{64} * 1024;

/// A last look at a nameplate that is otherwise right: one sentence that begins with a key, or
/// empty.
using NameplateCheck = std::function<std::string(const Nameplate&)>;

/// Reads the file at `path`, a pipe, or standard input ("-").
Nameplate read_nameplate(const std::string& path, const NameplateCheck& last_check = {});

/// Reads a nameplate from its text; `file` names it in messages and gives it its title.
Nameplate parse_nameplate(std::string_view text, const std::string& file,
                          const NameplateCheck& last_check = {});

}  // namespace sim
