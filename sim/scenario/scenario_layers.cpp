#include "sim/scenario/scenario_layers.hpp"

#include <algorithm>
#include <iterator>
#include <optional>
#include <utility>

#include "sim/files/input_error.hpp"
#include "sim/files/quoting.hpp"
#include "sim/scenario/closest_word.hpp"
#include "sim/scenario/fitting_together.hpp"
#include "sim/scenario/library_limiter.hpp"
#include "sim/scenario/toml_root.hpp"

namespace sim {

namespace {

std::string bracketed_names(const std::vector<ScenarioTable>& tables) {
    std::string text;
    for (const ScenarioTable& table : tables) {
        text += (text.empty() ? "[" : ", [") + std::string(table.name) + "]";
    }
    return text;
}

[[noreturn]] void refuse_unknown_table(const GivenKey& given,
                                       const std::vector<ScenarioTable>& tables) {
    std::vector<std::string_view> names;
    names.reserve(tables.size());
    for (const ScenarioTable& table : tables) {
        names.push_back(table.name);
    }
    const auto meant = closest_word(given.name, names);
    const std::string advice = meant ? "did you mean [" + std::string(*meant) + "]?"
                                     : "a scenario has the tables " + bracketed_names(tables);
    throw InputError(std::string(given.file), given.line, shortened(given.name, 60),
                     (given.value->is_table() ? "unknown table; " : "unknown key; ") + advice);
}

struct GivenTable {
    TablePlace place;
    std::vector<GivenKey> keys;
};

bool is_list(const toml::node& value) {
    const toml::array* array = value.as_array();
    return array != nullptr && !array->empty() && array->is_homogeneous<toml::table>();
}

void refuse_no_table(const GivenKey& given, bool may_be_list) {
    if (!given.value->is_table() && !(may_be_list && is_list(*given.value))) {
        const std::string name(given.name);
        throw InputError(
            std::string(given.file), given.line, name,
            may_be_list ? "this is not a table; give [[" + name + "]] with its keys below"
                        : "this is not a table; give [" + name + "] once, with its keys below");
    }
}

/// None if the layer does not have it; more than one only where it may be a list.
std::vector<GivenTable> all_tables_of(const ScenarioLayer& layer, std::string_view name) {
    const std::string& file = layer.file->name;
    std::vector<GivenTable> all;
    for (const GivenKey& given : layer.tables) {
        if (given.name != name) {
            continue;
        }
        if (const toml::table* table = given.value->as_table()) {
            all.push_back({{file, given.line}, keys_in_file_order(*table, file)});
            continue;
        }
        for (const toml::node& one : *given.value->as_array()) {
            all.push_back({{file, static_cast<int>(one.source().begin.line)},
                           keys_in_file_order(*one.as_table(), file)});
        }
    }
    return all;
}

/// None if the layer does not have it.
std::optional<GivenTable> table_of(const ScenarioLayer& layer, std::string_view name) {
    const std::vector<GivenTable> all = all_tables_of(layer, name);
    return all.empty() ? std::nullopt : std::optional<GivenTable>(all.front());
}

using Layers = std::vector<ScenarioLayer>;

/// As often as the layers give it, the lowest layer first.
std::vector<GivenTable> list_of(const Layers& layers, std::string_view name) {
    std::vector<GivenTable> all;
    for (auto layer = layers.rbegin(); layer != layers.rend(); ++layer) {
        for (GivenTable& one : all_tables_of(*layer, name)) {
            all.push_back(std::move(one));
        }
    }
    return all;
}

/// Reads every table in the order of the uppermost layer that gives it, each laid over what the
/// layers below say about it; what nobody gives takes its defaults.
void read_tables(const Layers& layers, std::size_t titled, const TablePlace& top,
                 const std::vector<ScenarioTable>& tables) {
    std::vector<std::pair<const ScenarioTable*, GivenTable>> found;
    const auto position = [&found](const ScenarioTable& table) {
        return std::find_if(found.begin(), found.end(),
                            [&table](const auto& one) { return one.first == &table; });
    };
    for (std::size_t k = 0; k < layers.size(); ++k) {
        for (const GivenKey& given : layers[k].tables) {
            const auto table =
                std::find_if(tables.begin(), tables.end(),
                             [&given](const ScenarioTable& one) { return one.name == given.name; });
            if (table == tables.end() || (table->name == heading_table && k >= titled)) {
                continue;
            }
            const auto above = position(*table);
            if (table->is_list) {
                if (above == found.end()) {
                    for (GivenTable& one : list_of(layers, table->name)) {
                        found.emplace_back(&*table, std::move(one));
                    }
                }
                continue;
            }
            GivenTable one = *table_of(layers[k], table->name);
            if (above == found.end()) {
                found.emplace_back(&*table, std::move(one));
            } else {
                above->second.keys = laid_over(one.keys, above->second.keys, kind_key);
            }
        }
    }
    for (const auto& [table, given] : found) {
        read_table(given.keys, given.place, *table);
        if (table->remember_line) {
            table->remember_line(given.place.line);
        }
    }
    // Last, because a table that seems missing is often one whose name was mistyped.
    for (const ScenarioTable& table : tables) {
        if (position(table) != found.end()) {
            continue;
        }
        if (table.is_required) {
            throw InputError(top.file, top.line, std::string(table.name),
                             "this table is missing; give [" + std::string(table.name) + "] (" +
                                 std::string(table.meaning) + ")");
        }
        // A table that may be left out is then of its first kind, with every default.
        if (!table.is_list) {
            table.kinds.front().begin();
        }
    }
}

/// The scenario with what the entry says of motor, load and unit in the place of its own.
Scenario with_compressor(const Scenario& scenario, const LibraryEntry& entry) {
    Scenario other = scenario;
    const ScenarioLayer layer = layer_of(entry);
    for (const ScenarioTable& table : scenario_tables(other)) {
        if (table.name == heading_table) {
            continue;
        }
        if (const std::optional<GivenTable> given = table_of(layer, table.name)) {
            read_table(given->keys, given->place, table);
        }
    }
    return other;
}

/// What the changes say together with each other and with the rest of the scenario.
void complete_changes(Scenario& scenario, const Layers& layers) {
    const std::vector<GivenTable> given = list_of(layers, change_table);
    int last = 0;
    for (std::size_t k = 0; k < given.size(); ++k) {
        ScenarioChange& change = scenario.changes.at(k);
        const TablePlace& place = given[k].place;
        change.file = place.file;
        change.line = place.line;
        if (change.before_start <= last) {
            throw InputError(place.file, place.line, "change.before_start",
                             "each change comes before a later start than the one above it; give "
                             "more than " +
                                 std::to_string(last));
        }
        last = change.before_start;
        check_change(scenario, change);
        if (change.compressor != nullptr) {
            const Scenario other = with_compressor(scenario, *change.compressor);
            const auto at_change = [&place](std::string_view, std::string_view) { return place; };
            for (const std::string& warning : check_fits_together(other, at_change)) {
                scenario.warnings.push_back("from start " + std::to_string(change.before_start) +
                                            " on " + warning);
            }
            change.exchanged =
                ExchangedUnit{other.motor, other.load, other.refrigerant, other.unit};
        }
    }
}

/// Where [library] stands, if a layer has it.
std::optional<TablePlace> place_of_choice(const Layers& layers) {
    for (const ScenarioLayer& layer : layers) {
        if (const std::optional<GivenTable> choice = table_of(layer, library_table)) {
            return choice->place;
        }
    }
    return std::nullopt;
}

/// See KeyLocator. Layers of the library do not count: the user's part in what they say is the
/// choice.
TablePlace place_of(const Layers& layers, const TablePlace& top, std::string_view table,
                    std::string_view key) {
    std::optional<TablePlace> of_table;
    for (const ScenarioLayer& layer : layers) {
        const std::optional<GivenTable> given =
            layer.is_library ? std::nullopt : table_of(layer, table);
        if (!given) {
            continue;
        }
        for (const GivenKey& one : given->keys) {
            if (one.name == key) {
                return {std::string(one.file), one.line};
            }
        }
        of_table = of_table.value_or(given->place);
    }
    if (of_table) {
        return *of_table;
    }
    const std::optional<TablePlace> choice = place_of_choice(layers);
    return choice && !key.empty() ? *choice : TablePlace{top.file, key.empty() ? 0 : top.line};
}

}  // namespace

std::shared_ptr<const ParsedFile> parsed_file(std::string_view text, const std::string& name,
                                              std::string_view under) {
    return std::make_shared<const ParsedFile>(ParsedFile{name, toml_root(text, name, under)});
}

ScenarioLayer ScenarioLayer::without(const std::vector<std::string_view>& names) const {
    ScenarioLayer left{file, {}, is_library};
    std::copy_if(tables.begin(), tables.end(), std::back_inserter(left.tables),
                 [&names](const GivenKey& one) {
                     return std::find(names.begin(), names.end(), one.name) == names.end();
                 });
    return left;
}

ScenarioLayer layer_of(std::shared_ptr<const ParsedFile> file) {
    std::vector<GivenKey> tables = keys_in_file_order(file->root, file->name);
    return {std::move(file), std::move(tables), false};
}

ScenarioLayer layer_of(const LibraryEntry& entry) {
    ScenarioLayer layer = layer_of(parsed_file(entry.text, std::string(entry.file), "its [table]"));
    layer.is_library = true;
    return layer;
}

void refuse_unknown_tables(const ScenarioLayer& layer, const std::vector<ScenarioTable>& tables) {
    for (const GivenKey& given : layer.tables) {
        const auto known =
            std::find_if(tables.begin(), tables.end(),
                         [&given](const ScenarioTable& one) { return one.name == given.name; });
        if (known == tables.end()) {
            refuse_unknown_table(given, tables);
        }
        refuse_no_table(given, known->is_list);
    }
}

void read_library_choice(const ScenarioLayer& layer, LibraryChoice& choice) {
    if (const std::optional<GivenTable> given = table_of(layer, library_table)) {
        const ScenarioTable form{library_table,
                                 false,
                                 "bundled models that the other tables are laid over",
                                 {TableKind{"", [&choice]() { return form_of(choice); }}}};
        read_table(given->keys, given->place, form);
    }
}

void read_layers(const std::vector<ScenarioLayer>& layers, std::size_t titled,
                 const TablePlace& top, Scenario& scenario) {
    read_layer_tables(layers, titled, top, scenario);
    const KeyLocator where = [&](std::string_view table, std::string_view key) {
        return place_of(layers, top, table, key);
    };
    scenario.warnings = check_fits_together(scenario, where);
    complete_library_limiter(scenario, where);
    complete_changes(scenario, layers);
}

void read_layer_tables(const std::vector<ScenarioLayer>& layers, std::size_t titled,
                       const TablePlace& top, Scenario& scenario) {
    read_tables(layers, titled, top, scenario_tables(scenario));
}

}  // namespace sim
