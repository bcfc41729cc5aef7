// Reads the tables of one suite's file; what they name together is checked by whoever makes cases.
#pragma once

#include <string>
#include <string_view>

#include "sim/suites/suite_parts.hpp"

namespace sim {

/// Larger files are refused after reading this much: an own text carries what it includes.
inline constexpr std::size_t most_suite_bytes = std::size_t{16} * 1024 * 1024;

/// `file` names it in messages. Throws InputError with file, line, key, and what is accepted.
SuiteParts parse_suite_parts(std::string_view text, const std::string& file);

}  // namespace sim
