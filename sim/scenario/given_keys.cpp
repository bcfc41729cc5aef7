#include "sim/scenario/given_keys.hpp"

#include <algorithm>
#include <utility>

namespace sim {

std::vector<GivenKey> keys_in_file_order(const toml::table& table, const std::string& file) {
    std::vector<std::pair<toml::source_position, GivenKey>> found;
    for (const auto& [key, value] : table) {
        // The position of the key, not of its value: a table that is made of dotted keys has none
        // of its own.
        const toml::source_position position = key.source().begin;
        found.emplace_back(position,
                           GivenKey{static_cast<int>(position.line), key.str(), &value, file});
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

namespace {
const GivenKey* find(const std::vector<GivenKey>& keys, std::string_view name) {
    const auto found = std::find_if(keys.begin(), keys.end(),
                                    [name](const GivenKey& key) { return key.name == name; });
    return found == keys.end() ? nullptr : &*found;
}

/// Anything but two equal texts differs.
bool differ(const toml::node& one, const toml::node& other) {
    const auto* text = one.as_string();
    const auto* other_text = other.as_string();
    return text == nullptr || other_text == nullptr || text->get() != other_text->get();
}
}  // namespace

std::vector<GivenKey> laid_over(const std::vector<GivenKey>& fallback,
                                const std::vector<GivenKey>& given, std::string_view deciding) {
    const GivenKey* chosen = find(given, deciding);
    const GivenKey* chosen_before = find(fallback, deciding);
    if (chosen != nullptr && chosen_before != nullptr &&
        differ(*chosen->value, *chosen_before->value)) {
        return given;
    }
    std::vector<GivenKey> keys = given;
    for (const GivenKey& key : fallback) {
        if (find(given, key.name) == nullptr) {
            keys.push_back(key);
        }
    }
    return keys;
}

}  // namespace sim
