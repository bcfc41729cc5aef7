#include "sim/library/library.hpp"

#include <algorithm>

namespace sim {

const LibraryEntry* find_entry(const std::vector<LibraryEntry>& entries, std::string_view name) {
    const auto found =
        std::find_if(entries.begin(), entries.end(),
                     [name](const LibraryEntry& entry) { return entry.name == name; });
    return found == entries.end() ? nullptr : &*found;
}

}  // namespace sim
