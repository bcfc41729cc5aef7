// Reads one table of a scenario file against the keys that it may hold.
#pragma once

#include <toml++/toml.h>

#include <string>
#include <vector>

#include "sim/scenario/given_keys.hpp"
#include "sim/scenario/scenario_tables.hpp"

namespace sim {

/// Where a table stands, for messages.
struct TablePlace {
    std::string file;
    int line = 0;  ///< of its header
};

/// Stores every value of `given` through `table`'s keys. Throws InputError for the first fault: the
/// kind, then the keys in the order of the file, then keys that are missing (with the header's
/// line), then what does not fit together.
void read_table(const toml::table& given, const TablePlace& place, const ScenarioTable& table);
/// The same for keys that were gathered from more than one file; each names its own.
void read_table(const std::vector<GivenKey>& given, const TablePlace& place,
                const ScenarioTable& table);

/// The key that says which kind a table is of.
inline constexpr std::string_view kind_key = "kind";

}  // namespace sim
