#include "sim/scenario/scenario_reader.hpp"

#include <algorithm>
#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "sim/controllers/library/library_loading.hpp"
#include "sim/files/bounded_input.hpp"
#include "sim/files/quoting.hpp"
#include "sim/library/library.hpp"
#include "sim/scenario/closest_word.hpp"
#include "sim/scenario/fitting_together.hpp"
#include "sim/scenario/given_keys.hpp"
#include "sim/scenario/scenario_tables.hpp"
#include "sim/scenario/table_reading.hpp"
#include "sim/scenario/toml_root.hpp"

namespace sim {

namespace {

std::string bracketed_names(const std::vector<ScenarioTable>& tables, bool required_only) {
    std::string text;
    for (const ScenarioTable& table : tables) {
        if (table.is_required || !required_only) {
            text += (text.empty() ? "[" : ", [") + std::string(table.name) + "]";
        }
    }
    return text;
}

toml::table parsed(std::string_view text, const std::string& file) {
    return toml_root(text, file, "its [table]");
}

[[noreturn]] void refuse_unknown_table(const GivenKey& given, const std::string& file,
                                       const std::vector<ScenarioTable>& tables) {
    std::vector<std::string_view> names;
    names.reserve(tables.size());
    for (const ScenarioTable& table : tables) {
        names.push_back(table.name);
    }
    const auto meant = closest_word(given.name, names);
    const std::string advice = meant
                                   ? "did you mean [" + std::string(*meant) + "]?"
                                   : "a scenario has the tables " + bracketed_names(tables, false);
    throw InputError(file, given.line, shortened(given.name, 60),
                     (given.value->is_table() ? "unknown table; " : "unknown key; ") + advice);
}

/// One file's tables: the scenario's own, or those of a library entry.
struct ParsedFile {
    std::string name;
    toml::table root;
};

struct GivenTable {
    TablePlace place;
    std::vector<GivenKey> keys;
};

bool is_list(const toml::node& value) {
    const toml::array* array = value.as_array();
    return array != nullptr && !array->empty() && array->is_homogeneous<toml::table>();
}

void refuse_no_table(const GivenKey& given, const std::string& file, bool may_be_list) {
    if (!given.value->is_table() && !(may_be_list && is_list(*given.value))) {
        const std::string name(given.name);
        throw InputError(
            file, given.line, name,
            may_be_list ? "this is not a table; give [[" + name + "]] with its keys below"
                        : "this is not a table; give [" + name + "] once, with its keys below");
    }
}

void refuse_unknown_tables(const ParsedFile& file, const std::vector<ScenarioTable>& tables) {
    for (const GivenKey& given : keys_in_file_order(file.root, file.name)) {
        const auto known =
            std::find_if(tables.begin(), tables.end(),
                         [&given](const ScenarioTable& one) { return one.name == given.name; });
        if (known == tables.end()) {
            refuse_unknown_table(given, file.name, tables);
        }
        refuse_no_table(given, file.name, known->is_list);
    }
}

/// None if the file does not have it; more than one only where it may be a list.
std::vector<GivenTable> all_tables_of(const ParsedFile& file, std::string_view name) {
    std::vector<GivenTable> all;
    for (const GivenKey& given : keys_in_file_order(file.root, file.name)) {
        if (given.name != name) {
            continue;
        }
        if (const toml::table* table = given.value->as_table()) {
            all.push_back({{file.name, given.line}, keys_in_file_order(*table, file.name)});
            continue;
        }
        for (const toml::node& one : *given.value->as_array()) {
            all.push_back({{file.name, static_cast<int>(one.source().begin.line)},
                           keys_in_file_order(*one.as_table(), file.name)});
        }
    }
    return all;
}

/// None if the file does not have it.
std::optional<GivenTable> table_of(const ParsedFile& file, std::string_view name) {
    const std::vector<GivenTable> all = all_tables_of(file, name);
    return all.empty() ? std::nullopt : std::optional<GivenTable>(all.front());
}

/// Reads every table of `file` in its order, each laid over what the library says about it, then
/// those that only the library gives; what nobody gives takes its defaults.
void read_tables(const ParsedFile& file, const std::vector<ParsedFile>& library,
                 const std::vector<ScenarioTable>& tables) {
    std::vector<std::pair<const ScenarioTable*, GivenTable>> found;
    for (const GivenKey& given : keys_in_file_order(file.root, file.name)) {
        const auto table =
            std::find_if(tables.begin(), tables.end(),
                         [&given](const ScenarioTable& one) { return one.name == given.name; });
        for (GivenTable& one : all_tables_of(file, table->name)) {
            found.emplace_back(&*table, std::move(one));
        }
    }
    const auto position = [&found](const ScenarioTable& table) {
        return std::find_if(found.begin(), found.end(),
                            [&table](const auto& one) { return one.first == &table; });
    };
    for (const ScenarioTable& table : tables) {
        for (const ParsedFile& entry : library) {
            const std::optional<GivenTable> fallback = table_of(entry, table.name);
            if (!fallback || table.name == heading_table) {
                continue;
            }
            if (const auto own = position(table); own != found.end()) {
                own->second.keys = laid_over(fallback->keys, own->second.keys, kind_key);
            } else {
                found.emplace_back(&table, *fallback);
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
            throw InputError(file.name, 0, std::string(table.name),
                             "this table is missing; give [" + std::string(table.name) + "] (" +
                                 std::string(table.meaning) + ")");
        }
        // A table that may be left out is then of its first kind, with every default.
        if (!table.is_list) {
            table.kinds.front().begin();
        }
    }
}

/// The entries that the scenario names in its table [library], if it has one.
std::vector<ParsedFile> named_library_files(const ParsedFile& file,
                                            const std::vector<ScenarioTable>& tables,
                                            const LibraryChoice& choice) {
    const auto form = std::find_if(tables.begin(), tables.end(), [](const ScenarioTable& table) {
        return table.name == library_table;
    });
    std::vector<ParsedFile> files;
    if (const std::optional<GivenTable> given = table_of(file, library_table)) {
        read_table(given->keys, given->place, *form);
        for (const LibraryEntry* entry : choice.entries()) {
            const std::string name(entry->file);
            files.push_back({name, parsed(entry->text, name)});
        }
    }
    return files;
}

/// The scenario with what the entry says of motor, load and unit in the place of its own.
Scenario with_compressor(const Scenario& scenario, const LibraryEntry& entry) {
    Scenario other = scenario;
    const ParsedFile file{std::string(entry.file), parsed(entry.text, std::string(entry.file))};
    for (const ScenarioTable& table : scenario_tables(other)) {
        if (table.name == heading_table) {
            continue;
        }
        if (const std::optional<GivenTable> given = table_of(file, table.name)) {
            read_table(given->keys, given->place, table);
        }
    }
    return other;
}

/// What the changes say together with each other and with the rest of the scenario.
void complete_changes(Scenario& scenario, const ParsedFile& file) {
    const std::vector<GivenTable> given = all_tables_of(file, change_table);
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

/// See KeyLocator.
TablePlace place_of(const ParsedFile& file, std::string_view table, std::string_view key) {
    const std::optional<GivenTable> given = table_of(file, table);
    if (!given) {
        // What the library said may clash as well; the user's part in that is the choice.
        const std::optional<GivenTable> choice = table_of(file, library_table);
        return choice && !key.empty() ? choice->place : TablePlace{file.name, 0};
    }
    for (const GivenKey& one : given->keys) {
        if (one.name == key) {
            return {file.name, one.line};
        }
    }
    return given->place;
}

/// A relative path begins where the file stands that gives it. What is wrong with the library is
/// found here, before anything runs.
void complete_library_limiter(Scenario& scenario, const KeyLocator& where) {
    auto* limiter = std::get_if<LibraryLimiter>(&scenario.limiter);
    if (limiter == nullptr) {
        return;
    }
    const TablePlace given = where("limiter", "path");
    const std::filesystem::path folder = std::filesystem::path(given.file).parent_path();
    limiter->path = (folder / limiter->path).string();
    const LibraryAnswer answer = try_library(*limiter, scenario.motor);
    if (answer.problem) {
        const TablePlace place = where("limiter", answer.problem->key);
        throw InputError(place.file, place.line, "limiter." + answer.problem->key,
                         answer.problem->words);
    }
    for (const Fault& fault : scenario.faults) {
        if (fault.timing.waits_for_state() && !answer.tells_states) {
            throw InputError(where("fault", "").file, fault.line, "fault.when",
                             "this library does not tell which state its controller is in; give "
                             "at_s");
        }
    }
}

}  // namespace

Scenario read_scenario(const std::string& path) {
    return parse_scenario(read_bounded_input(path, most_scenario_bytes), input_name(path));
}

Scenario parse_scenario(std::string_view text, const std::string& file) {
    Scenario scenario;
    // The name goes into reports, which are UTF-8; a file's name may be any bytes.
    scenario.name = escaped(std::filesystem::path(file).stem().string());
    scenario.title = scenario.name;
    const std::vector<ScenarioTable> tables = scenario_tables(scenario);
    if (text.find_first_not_of(" \t\r\n") == std::string_view::npos) {
        throw InputError(
            file, 0, "",
            "the file is empty; give a scenario with the tables " + bracketed_names(tables, true));
    }
    const ParsedFile own{file, parsed(text, file)};
    refuse_unknown_tables(own, tables);
    const std::vector<ParsedFile> library = named_library_files(own, tables, scenario.library);
    read_tables(own, library, tables);
    const KeyLocator where = [&own](std::string_view table, std::string_view key) {
        return place_of(own, table, key);
    };
    scenario.warnings = check_fits_together(scenario, where);
    complete_library_limiter(scenario, where);
    complete_changes(scenario, own);
    return scenario;
}

Scenario parse_library_entry(const LibraryEntry& entry) {
    Scenario scenario;
    const ParsedFile file{std::string(entry.file), parsed(entry.text, std::string(entry.file))};
    const std::vector<ScenarioTable> tables = scenario_tables(scenario);
    refuse_unknown_tables(file, tables);
    for (const ScenarioTable& table : tables) {
        if (const std::optional<GivenTable> given = table_of(file, table.name)) {
            read_table(given->keys, given->place, table);
        } else if (!table.is_required && !table.is_list) {
            table.kinds.front().begin();
        }
    }
    scenario.name = entry.name;
    return scenario;
}

}  // namespace sim
