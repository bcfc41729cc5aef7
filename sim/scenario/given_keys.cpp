#include "sim/scenario/given_keys.hpp"

#include <algorithm>
#include <utility>

namespace sim {

std::vector<GivenKey> keys_in_file_order(const toml::table& table) {
    std::vector<std::pair<toml::source_position, GivenKey>> found;
    for (const auto& [key, value] : table) {
        // The position of the key, not of its value: a table that is made of dotted keys has none
        // of its own.
        const toml::source_position position = key.source().begin;
        found.emplace_back(position, GivenKey{static_cast<int>(position.line), key.str(), &value});
    }
    std::sort(found.begin(), found.end(),
              [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<GivenKey> keys;
    keys.reserve(found.size());
    for (const auto& [position, key] : found) {
        keys.push_back(key);
    }
    return keys;
}

}  // namespace sim
