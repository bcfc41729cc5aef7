// The tables and keys of a suite's file: one list for the reader, the reference and the tests.
//
//   [suite]        what it is, its seed, and other suites that it takes in
//   [[spread]]     a distribution of an input; spreads of a group are chosen together
//   [[expectation]] what starts are held to
//   [[compressor]] [[supply]] [[condition]] [[fault]] [[setting]]
//                  entries of the matrix's sides, each with tables of a scenario below it:
//                  [setting.limiter], [condition.conditions]...
//   [[block]]      a matrix of such names, with draws of the spreads in every cell
//
// In a cell, setting lies over fault, condition, supply, compressor, the block's own tables, and
// the block's scenario, in this order. A compressor of the side replaces every table of the unit
// that lies below it (a compressor is exchanged as a whole), a supply [source] and [wiring].
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sim/scenario/scenario_tables.hpp"
#include "sim/suites/suite_parts.hpp"

namespace sim {

/// All tables but [[enclosed]], which nobody writes by hand; bound to `target`, which must outlive
/// them. The kinds of lists add an element when they begin.
std::vector<ScenarioTable> suite_tables(SuiteParts& target);

/// Tables whose entries hold tables of a scenario, too.
bool holds_scenario_tables(std::string_view suite_table);

/// What a compressor or a supply of the side brings along.
const std::vector<std::string_view>& tables_of_unit();
const std::vector<std::string_view>& tables_of_supply();
/// Tables of a scenario that a suite decides otherwise.
const std::vector<std::string_view>& tables_of_no_layer();

/// The reference in plain text.
std::string describe_suite_keys();

}  // namespace sim
