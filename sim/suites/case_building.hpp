// From a cell of the matrix to its scenario, before anything is drawn.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/suites/suite_parts.hpp"

namespace sim {

/// One choice of a side. Nothing chosen: no name and no layer.
struct SideChoice {
    std::string name;
    std::vector<ScenarioLayer> layers;      ///< the uppermost first
    const LibraryEntry* library = nullptr;  ///< of a compressor or a supply
    std::optional<Way> way;                 ///< of a setting
};

/// A single fault of the list that runup faults walks over, or tables of the suite's own.
struct FaultChoice {
    std::string name;  ///< as results show it; empty: no fault
    std::vector<ScenarioLayer> layers;
    std::string single;      ///< name in single_faults()
    double at_s = 0.0;       ///< of a single fault
    bool was_named = false;  ///< not only as one of "single"
};

/// What lies below the matrix: the block's own tables, its scenario, and what that is laid over.
struct BlockBase {
    TablePlace place;  ///< of the block, for what is missing
    std::vector<ScenarioLayer> layers;
    LibraryChoice library;
    Outcome expected = Outcome::running;  ///< by the scenario's [expect]
};

struct Cell {
    const SideChoice* compressor;
    const SideChoice* supply;
    const SideChoice* condition;
    const SideChoice* setting;
    const FaultChoice* fault;
};

/// Motor and source of the cell alone; nothing else is checked.
Scenario pair_of(const BlockBase& base, const Cell& cell);

/// Throws InputError, as for a scenario. None if the cell's way of starting cannot be fitted to its
/// unit, or if the unit does not have the part that a single fault breaks.
std::optional<Scenario> scenario_of(const BlockBase& base, const Cell& cell);

}  // namespace sim
