// The bundled compressors and supplies: generic, of no make, each a TOML file of its own in
// compressors/ or supplies/ that says where every number is from. They are built into the program,
// so that a scenario can name them wherever it lies.
//
// A compressor's file has the tables of its unit ([motor], [load], [refrigerant], [heat]...), a
// supply's file [source] and perhaps [wiring]; each has a [scenario] title of one line.
#pragma once

#include <string_view>
#include <vector>

namespace sim {

struct LibraryEntry {
    std::string_view name;  ///< the file's name without its ending
    std::string_view file;  ///< as messages name it
    std::string_view text;
};

/// By name. All are made from the folders when the program is built.
const std::vector<LibraryEntry>& library_compressors();
const std::vector<LibraryEntry>& library_supplies();

/// The scenarios of sim/scenarios, embedded in the same way.
const std::vector<LibraryEntry>& bundled_scenarios();

/// Null if there is none of this name.
const LibraryEntry* find_entry(const std::vector<LibraryEntry>& entries, std::string_view name);

}  // namespace sim
