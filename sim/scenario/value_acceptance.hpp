// Decides whether a TOML value is what a key accepts.
//
// A whole number must be written as a TOML integer (4, not 4.0); any other number may be written
// either way. NaN and infinity are numbers to TOML but are in nobody's bounds. Nothing is converted
// from text and nothing is clamped.
#pragma once

#include <toml++/toml.h>

#include <optional>
#include <string>

#include "sim/scenario/key.hpp"

namespace sim {

/// The value in the form that the key stores, or none if the rule does not accept it. A minus zero
/// loses its sign.
std::optional<KeyValue> accepted_value(const toml::node& value, const Rule& rule);

/// The value as a message shows it: `-1.5`, `4.0`, `"grit"`, `a list`. Long and unprintable text is
/// cut and escaped.
std::string shown_value(const toml::node& value);

}  // namespace sim
