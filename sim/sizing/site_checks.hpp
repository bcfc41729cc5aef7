// What to look for at the unit, as numbers: what an inrush clamp should read before and after, and
// what another reading means. The meanings are common practice.
#pragma once

#include <string>
#include <vector>

#include "sim/sizing/size_report.hpp"

namespace sim {

/// More than this above the expected range is worth finding out (engineering judgement: the clamp
/// itself and the model's spread within its class).
inline constexpr double suspicious_share = 1.15;

/// One sentence or two each, with a full stop.
std::vector<std::string> site_checks(const SizeReport& report);

}  // namespace sim
