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
    /// Written [[name]], as often as wanted; each `begin` then adds one. May be left out.
    bool is_list = false;
    /// Of a list: called after each that was read, with the line at which it stands.
    std::function<void(int line)> remember_line = {};
};

/// All tables, bound to `target`, which must outlive them. Nothing is written to `target` before a
/// kind's `begin` is called.
std::vector<ScenarioTable> scenario_tables(Scenario& target);

}  // namespace sim
