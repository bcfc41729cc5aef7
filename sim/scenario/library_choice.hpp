// Table [library]: the bundled compressor and supply that the rest of the scenario is laid over.
//
// What the scenario's own tables give counts; everything else in those tables is as the library's
// file says. A table whose `kind` differs from the library's stands alone.
#pragma once

#include <string_view>
#include <vector>

#include "sim/library/library.hpp"
#include "sim/scenario/parameter_keys.hpp"

namespace sim {

struct LibraryChoice {
    const LibraryEntry* compressor = nullptr;  ///< null: the scenario describes its own
    const LibraryEntry* supply = nullptr;

    /// Those that are chosen.
    std::vector<const LibraryEntry*> entries() const;
};

TableForm form_of(LibraryChoice& target);

}  // namespace sim
