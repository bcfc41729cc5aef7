// What no table can say alone: whether the parts of a scenario make sense together.
//
// What is refused and what is only warned about stands in fitting_rules(), for users to read.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/scenario/scenario.hpp"
#include "sim/scenario/table_reading.hpp"

namespace sim {

/// Where a key stands: its own line if the scenario gives it, else that of its table, else that of
/// the library's choice; line 0 if none of them is there. An empty key asks for the table itself.
using KeyLocator = std::function<TablePlace(std::string_view table, std::string_view key)>;

/// Throws InputError for the first thing that is refused; returns what is worth a warning, each one
/// sentence.
std::vector<std::string> check_fits_together(const Scenario& scenario, const KeyLocator& where);

/// Throws InputError if the scenario has nothing for the change to act on.
void check_change(const Scenario& scenario, const ScenarioChange& change);

/// One sentence that says why the scenario cannot have this fault; empty if it can.
std::string misfit_of_fault(const Fault& fault, const Scenario& scenario);

/// The same rules in words: plain text of lines that end in a newline.
std::string_view fitting_rules();

}  // namespace sim
