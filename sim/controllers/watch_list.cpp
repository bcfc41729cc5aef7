#include "sim/controllers/watch_list.hpp"

#include <cstddef>

namespace sim {

namespace {

std::vector<firmware::WatchedVariable> all_parts() {
    std::vector<firmware::WatchedVariable> list;
    for (std::size_t k = 0; k < firmware::Watch::part_count; ++k) {
        const firmware::WatchedPart part = firmware::Watch::part(k);
        list.insert(list.end(), part.first, part.first + part.count);
    }
    return list;
}

}  // namespace

const std::vector<firmware::WatchedVariable>& watch_list() {
    static const std::vector<firmware::WatchedVariable> list = all_parts();
    return list;
}

std::vector<std::string> watch_names() {
    std::vector<std::string> names;
    for (const firmware::WatchedVariable& variable : watch_list()) {
        names.emplace_back(variable.name);
    }
    return names;
}

std::string_view watch_meaning(std::string_view name) {
    for (const firmware::WatchedVariable& variable : watch_list()) {
        if (variable.name == name) {
            return variable.meaning;
        }
    }
    return {};
}

}  // namespace sim
