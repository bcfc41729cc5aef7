// The controller's settings in a recording: the keys of [limiter] with their values.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "firmware/settings/settings.hpp"

namespace sim {

nlohmann::ordered_json settings_json(const firmware::Settings& settings);

/// A key that is missing keeps its default, so that an older recording can be asked of a newer
/// controller. Throws InputError, which names `file`, for an unknown key and a value that is not
/// accepted.
firmware::Settings settings_from_json(const nlohmann::ordered_json& json, const std::string& file);

}  // namespace sim
