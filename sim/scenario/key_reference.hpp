// The reference of scenario files, made from the same tables that the reader walks.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/scenario/scenario_tables.hpp"

namespace sim {

/// A table with its kinds and keys; plain text of lines that end in a newline.
std::string describe(const ScenarioTable& table);

/// Every table, kind and key with what it accepts, its default and its meaning; plain text of lines
/// that end in a newline. At the end, what tables must fit together.
std::string describe_keys();

/// One table of it; none if a scenario has no table of this name.
std::optional<std::string> describe_table(std::string_view name);

/// The names of all tables, as a scenario writes them, in the reference's order.
std::vector<std::string_view> table_names();

}  // namespace sim
