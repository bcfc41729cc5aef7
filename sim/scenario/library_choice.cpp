#include "sim/scenario/library_choice.hpp"

#include <string>

namespace sim {

namespace {

Key entry_key(const char* name, const std::vector<LibraryEntry>& entries, const char* meaning,
              const LibraryEntry*& target) {
    WordRule rule;
    for (const LibraryEntry& entry : entries) {
        rule.words.push_back(entry.name);
    }
    const auto store = [&entries, &target](const KeyValue& value) {
        target = find_entry(entries, std::get<std::string>(value));
    };
    target = nullptr;
    return {name, rule, "none", meaning, store};
}

}  // namespace

std::vector<const LibraryEntry*> LibraryChoice::entries() const {
    std::vector<const LibraryEntry*> chosen;
    for (const LibraryEntry* entry : {compressor, supply}) {
        if (entry != nullptr) {
            chosen.push_back(entry);
        }
    }
    return chosen;
}

TableForm form_of(LibraryChoice& target) {
    return {{entry_key("compressor", library_compressors(),
                       "bundled compressor that the scenario's tables are laid over; "
                       "runup list shows them",
                       target.compressor),
             entry_key("supply", library_supplies(),
                       "bundled supply that the scenario's tables are laid over", target.supply)},
            []() { return std::string(); }};
}

}  // namespace sim
