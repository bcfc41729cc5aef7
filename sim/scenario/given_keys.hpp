// The keys of one TOML table in the order in which a person wrote them. The parser keeps them in
// alphabetical order, in which "the first fault" would mean nothing to the reader of a message.
#pragma once

#include <toml++/toml.h>

#include <string>
#include <string_view>
#include <vector>

namespace sim {

/// Points into the parsed table and the file's name, which must outlive it.
struct GivenKey {
    int line;  ///< counted from 1
    std::string_view name;
    const toml::node* value;
    std::string_view file;
};

/// By the position at which each key first stands.
std::vector<GivenKey> keys_in_file_order(const toml::table& table, const std::string& file);

/// Both lists as one: what `given` says counts, the rest is as in `fallback`. If the two give
/// different values for `deciding`, their keys mean different things, and `given` stands alone.
std::vector<GivenKey> laid_over(const std::vector<GivenKey>& fallback,
                                const std::vector<GivenKey>& given, std::string_view deciding);

}  // namespace sim
