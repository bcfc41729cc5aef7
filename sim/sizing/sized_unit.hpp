// The compressor that is asked about: a compressor of the library by its name, a nameplate file as
// runup fit reads it, or a scenario file.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/files/input_error.hpp"
#include "sim/sizing/supply_at_hand.hpp"

namespace sim {

struct SizedUnit {
    Scenario unit;  ///< its own source counts only if `own_supply` is there
    /// A scenario's own supply, named after the file or after the library's entry that it chooses.
    std::optional<SupplyAtHand> own_supply;
    /// From a nameplate: its load has no gas, so that a short rest or a hot day does not hold it.
    bool is_from_nameplate = false;
};

/// `name_or_path`: of the library, a file, or "-". Throws InputError.
SizedUnit read_sized_unit(const std::string& name_or_path);

/// The supplies to look at: the unit's own, and those of these names; without names all of the
/// library that suit. Throws InputError for a name that is unknown or does not suit, and if nothing
/// is left.
std::vector<SupplyAtHand> supplies_to_look_at(const SizedUnit& sized,
                                              const std::vector<std::string>& names);

}  // namespace sim
