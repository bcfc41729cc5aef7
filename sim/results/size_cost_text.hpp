// The part of the page of runup size that speaks of money.
#pragma once

#include <string>
#include <vector>

#include "sim/sizing/size_report.hpp"

namespace sim {

/// The smallest supply for each way and what it costs; empty if only utilities were looked at.
std::string size_cost_text(const SizeReport& report);

/// What stands below its table: the comparison, and what the figures mean.
std::vector<std::string> size_cost_sentences(const SizeReport& report);

}  // namespace sim
