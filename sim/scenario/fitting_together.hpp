// What no table can say alone: whether the parts of a scenario make sense together.
//
// Refused, because the model cannot answer honestly:
//   - a start aid beside a limiter (the trade takes the one out when it fits the other)
//   - a run capacitor of 0 with nothing else that feeds the auxiliary winding
//   - a motor more than 2.5 Hz off the supply's frequency (its iron would saturate; ours does not)
//   - [refrigerant] for a load that has none
// Warned about, because it may be just what somebody wants to see:
//   - a supply voltage outside 0.8 to 1.2 of the motor's rated voltage
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/scenario/scenario.hpp"
#include "sim/scenario/table_reading.hpp"

namespace sim {

/// Where a table stands, by its name.
using TableLocator = std::function<TablePlace(std::string_view)>;

/// Throws InputError for the first thing that is refused; returns what is worth a warning, each one
/// sentence.
std::vector<std::string> check_fits_together(const Scenario& scenario, const TableLocator& where);

}  // namespace sim
