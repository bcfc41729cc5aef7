// The keys of one TOML table in the order in which a person wrote them. The parser keeps them in
// alphabetical order, in which "the first fault" would mean nothing to the reader of a message.
#pragma once

#include <toml++/toml.h>

#include <string_view>
#include <vector>

namespace sim {

/// Points into the parsed table, which must outlive it.
struct GivenKey {
    int line;  ///< counted from 1
    std::string_view name;
    const toml::node* value;
};

/// By the position at which each key first stands.
std::vector<GivenKey> keys_in_file_order(const toml::table& table);

}  // namespace sim
