// The list of tables that a scenario file has. Adding one: give its struct a file of its own, put
// it into Scenario, name it here.
#pragma once

#include <functional>
#include <string_view>
#include <vector>

#include "sim/scenario/parameter_keys.hpp"
#include "sim/scenario/scenario.hpp"

namespace sim {

inline constexpr std::string_view heading_table = "scenario";
inline constexpr std::string_view library_table = "library";

struct ScenarioTable {
    std::string_view name;
    bool is_required = false;  ///< no: its first kind has no key without a default
    std::string_view meaning;
    std::vector<TableKind> kinds;  ///< exactly one, with an empty word, if the table has no kinds
    /// It may be given many times, as [[name]]; every `begin` of a kind then makes a new target.
    bool is_repeatable = false;
    /// Of a repeatable table: called after each that was read, with the line at which it stands.
    std::function<void(int line)> remember_line = {};
};

/// All tables, bound to `target`, which must outlive them. Nothing is written to `target` before a
/// kind's `begin` is called.
std::vector<ScenarioTable> scenario_tables(Scenario& target);

}  // namespace sim
