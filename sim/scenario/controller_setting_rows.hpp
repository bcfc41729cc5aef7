// Which field of the controller's settings each key of [limiter] sets, and how. One row a setting.
//
// A field that is added to the controller gets a row here; a test fails until it has one. Its name
// there is in the controller's integer unit (`_permille`, `_mA`), its key here in the one that
// people use (`_percent`, `_A`).
#pragma once

#include <array>
#include <cstdint>
#include <string_view>
#include <vector>

#include "firmware/settings/settings.hpp"

namespace sim {

/// A setting that is a single number.
struct NumberSetting {
    std::string_view key;
    std::int32_t firmware::Settings::*field;
    double per_unit;                    ///< counts of the controller that make one unit of the key
    double lowest;                      ///< in the key's unit
    double highest;                     ///< in the key's unit
    firmware::SettingsProblem problem;  ///< how the controller's check calls the field
    std::string_view meaning;
    /// What can still be wrong with a value in its bounds, to follow the key; empty if nothing.
    std::string_view relation;
};

/// A setting that has one number for each stage of the ladder.
struct StageList {
    std::string_view key;
    std::int32_t firmware::StageSettings::*field;
    double per_unit;  ///< as above
    double lowest;    ///< of each entry
    double highest;   ///< of each entry
    firmware::SettingsProblem problem;
    std::string_view meaning;
    std::string_view relation;
};

const std::vector<NumberSetting>& number_settings();

/// Targets first, then dwells.
const std::array<StageList, 2>& stage_lists();

}  // namespace sim
