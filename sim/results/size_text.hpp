// The page of runup size, and its one line.
#pragma once

#include <string>

#include "sim/sizing/size_report.hpp"

namespace sim {

std::string size_text(const SizeReport& report);

/// For --quiet: every supply's answer on one line.
std::string size_verdict(const SizeReport& report);

/// For a compressor with a drive of its own, which no start needs to be simulated for.
std::string variable_speed_text(const std::string& unit_title);

}  // namespace sim
