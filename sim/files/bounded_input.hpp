// Reads a whole input file, but never more of it than an input of ours could need, so that a huge
// or endless file is refused at once.
#pragma once

#include <cstddef>
#include <string>

namespace sim {

/// How a path is called in messages: the path itself, or "standard input" for "-".
std::string input_name(const std::string& path);

/// The bytes of a regular file, a pipe, a device, or standard input (path "-").
/// Reads at most `most_bytes` + 1. Throws InputError for a path that is missing, a folder, or not
/// readable, and for more than `most_bytes`.
std::string read_bounded_input(const std::string& path, std::size_t most_bytes);

}  // namespace sim
