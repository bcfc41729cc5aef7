// A scenario made of layers: tables from several places, each laid over those below it. What an
// upper layer gives counts; the rest of the same table is as the layers below say, unless the upper
// one gives the table another `kind`, which then stands alone. Tables that may be given many times
// ([[fault]], [[change]]) are taken from all layers, the lowest first.
#pragma once

#include <toml++/toml.h>

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "sim/scenario/given_keys.hpp"
#include "sim/scenario/scenario.hpp"
#include "sim/scenario/scenario_tables.hpp"
#include "sim/scenario/table_reading.hpp"

namespace sim {

struct ParsedFile {
    std::string name;  ///< in messages
    toml::table root;
};

/// Throws InputError if `text` is no TOML; `under`: see toml_root.
std::shared_ptr<const ParsedFile> parsed_file(std::string_view text, const std::string& name,
                                              std::string_view under);

/// Some tables of one file, in its order. Copies share the file.
struct ScenarioLayer {
    std::shared_ptr<const ParsedFile> file;
    std::vector<GivenKey> tables;
    bool is_library = false;  ///< a clash in it is laid at the door of who chose it

    /// Without those of these names.
    ScenarioLayer without(const std::vector<std::string_view>& names) const;
};

/// All tables of the file.
ScenarioLayer layer_of(std::shared_ptr<const ParsedFile> file);
ScenarioLayer layer_of(const LibraryEntry& entry);

/// Throws InputError for the first of them that no scenario has, or that is no table.
void refuse_unknown_tables(const ScenarioLayer& layer, const std::vector<ScenarioTable>& tables);

/// Fills in what table [library] of the layer says, if it is there.
void read_library_choice(const ScenarioLayer& layer, LibraryChoice& choice);

/// Reads `layers`, the uppermost first, into a scenario that has its name already; throws
/// InputError as read_scenario does. `top` is where a table that no layer has is missed. Only the
/// uppermost `titled` layers may give a title. [library] of a layer is not followed.
void read_layers(const std::vector<ScenarioLayer>& layers, std::size_t titled,
                 const TablePlace& top, Scenario& scenario);

/// The same without looking at what the tables say together.
void read_layer_tables(const std::vector<ScenarioLayer>& layers, std::size_t titled,
                       const TablePlace& top, Scenario& scenario);

}  // namespace sim
