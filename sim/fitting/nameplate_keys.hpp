// The keys of a nameplate file's table [nameplate].
#pragma once

#include "sim/fitting/nameplate.hpp"
#include "sim/fitting/nameplate_reader.hpp"
#include "sim/scenario/scenario_tables.hpp"

namespace sim {

/// The table, bound to `target`, which must outlive it. `last_check` may be empty.
ScenarioTable nameplate_table(Nameplate& target, const NameplateCheck& last_check);

}  // namespace sim
