// Parses a TOML file's text, and makes an InputError of what the parser stumbles over.
#pragma once

#include <toml++/toml.h>

#include <string>
#include <string_view>

namespace sim {

/// `file` names it in the message; `under` is what the keys should stand under, as in
/// "[nameplate]".
toml::table toml_root(std::string_view text, const std::string& file, std::string_view under);

}  // namespace sim
