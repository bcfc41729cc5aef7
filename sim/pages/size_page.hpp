// The page of runup size: the answer, the table of supplies and ways with their intervals, what
// each way costs, and what to check on site.
#pragma once

#include "sim/pages/page.hpp"
#include "sim/sizing/size_report.hpp"

namespace sim {

Page size_page(const SizeReport& report);

/// Parts of that page, for other pages.
Table supply_table(const SizeReport& report);
Table cost_table(const SizeReport& report);

}  // namespace sim
