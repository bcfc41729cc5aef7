// The part of the page of runup size that speaks of money.
#pragma once

#include <string>

#include "sim/sizing/size_report.hpp"

namespace sim {

/// The smallest supply for each way and what it costs; empty if only utilities were looked at.
std::string size_cost_text(const SizeReport& report);

}  // namespace sim
