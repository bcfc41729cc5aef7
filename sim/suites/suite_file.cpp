#include "sim/suites/suite_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

#include "sim/files/input_error.hpp"
#include "sim/files/quoting.hpp"
#include "sim/scenario/closest_word.hpp"
#include "sim/suites/suite_tables.hpp"

namespace sim {

namespace {

constexpr std::string_view enclosed_table = "enclosed";

using File = std::shared_ptr<const ParsedFile>;

bool is_list_of_tables(const toml::node& node) {
    const toml::array* array = node.as_array();
    return array != nullptr && !array->empty() && array->is_homogeneous<toml::table>();
}

[[noreturn]] void refuse_unknown(const GivenKey& given, const std::vector<ScenarioTable>& tables) {
    std::vector<std::string_view> names;
    std::string all;
    for (const ScenarioTable& table : tables) {
        names.push_back(table.name);
        all +=
            (all.empty() ? "" : ", ") + fmt::format(table.is_list ? "[[{}]]" : "[{}]", table.name);
    }
    const auto meant = closest_word(given.name, names);
    throw InputError(std::string(given.file), given.line, shortened(given.name, 60),
                     meant ? "unknown table; did you mean " + std::string(*meant) + "?"
                           : "unknown table; a suite has the tables " + all);
}

/// Every table of this name, with its line.
std::vector<std::pair<TablePlace, const toml::table*>> tables_given(const GivenKey& given,
                                                                    const ScenarioTable& form) {
    const std::string file(given.file);
    if (const toml::table* table = given.value->as_table(); table != nullptr && !form.is_list) {
        return {{TablePlace{file, given.line}, table}};
    }
    if (!form.is_list || !is_list_of_tables(*given.value)) {
        throw InputError(
            file, given.line, std::string(given.name),
            fmt::format(form.is_list ? "this is no list of tables; give [[{}]] with its keys below"
                                     : "this is not a table; give [{}] once, with its keys below",
                        given.name));
    }
    std::vector<std::pair<TablePlace, const toml::table*>> all;
    for (const toml::node& one : *given.value->as_array()) {
        all.emplace_back(TablePlace{file, static_cast<int>(one.source().begin.line)},
                         one.as_table());
    }
    return all;
}

/// What stands below an entry and is a table of a scenario.
ScenarioLayer layer_below(const std::vector<GivenKey>& keys, const File& file) {
    ScenarioLayer layer{file, {}, false};
    std::copy_if(
        keys.begin(), keys.end(), std::back_inserter(layer.tables),
        [](const GivenKey& key) { return key.value->is_table() || is_list_of_tables(*key.value); });
    Scenario scenario;
    refuse_unknown_tables(layer, scenario_tables(scenario));
    for (const GivenKey& given : layer.tables) {
        const auto& refused = tables_of_no_layer();
        if (std::find(refused.begin(), refused.end(), given.name) != refused.end()) {
            throw InputError(file->name, given.line, std::string(given.name),
                             "a suite gives titles, bundled models and expectations by its own "
                             "keys; leave this table out");
        }
    }
    return layer;
}

std::deque<SideEntry>* side_named(SuiteParts& parts, std::string_view name) {
    return name == "compressor"  ? &parts.compressors
           : name == "supply"    ? &parts.supplies
           : name == "condition" ? &parts.conditions
           : name == "fault"     ? &parts.faults
           : name == "setting"   ? &parts.settings
                                 : nullptr;
}

KeyPlaces places_of(const TablePlace& table, const std::vector<GivenKey>& keys) {
    KeyPlaces places{table, {}};
    for (const GivenKey& key : keys) {
        places.lines.emplace(key.name, key.line);
    }
    return places;
}

/// Gives what was read last its place, and the tables below it.
void remember(SuiteParts& parts, std::string_view table, const KeyPlaces& places,
              ScenarioLayer layer) {
    if (std::deque<SideEntry>* side = side_named(parts, table)) {
        side->back().place = places.table;
        side->back().layer = std::move(layer);
    } else if (table == "block") {
        parts.blocks.back().places = places;
        parts.blocks.back().layer = std::move(layer);
    } else if (table == "spread") {
        parts.spreads.back().place = places.table;
    } else if (table == "expectation") {
        parts.expectations.back().place = places.table;
    } else {
        parts.heading.places = places;
    }
}

void read_given(const GivenKey& given, const ScenarioTable& form, const File& file,
                SuiteParts& parts) {
    for (const auto& [place, table] : tables_given(given, form)) {
        std::vector<GivenKey> keys = keys_in_file_order(*table, file->name);
        ScenarioLayer layer;
        if (holds_scenario_tables(form.name)) {
            layer = layer_below(keys, file);
            keys.erase(std::remove_if(keys.begin(), keys.end(),
                                      [](const GivenKey& key) {
                                          return key.value->is_table() ||
                                                 is_list_of_tables(*key.value);
                                      }),
                       keys.end());
        }
        read_table(keys, place, form);
        remember(parts, form.name, places_of(place, keys), std::move(layer));
    }
}

void read_enclosed(const GivenKey& given, SuiteParts& parts) {
    const ScenarioTable form{enclosed_table, false, "", {}, true};
    for (const auto& [place, table] : tables_given(given, form)) {
        const auto name = (*table)["name"].value<std::string>();
        const auto text = (*table)["text"].value<std::string>();
        if (!name || !text) {
            throw InputError(place.file, place.line, std::string(enclosed_table),
                             "this table is for texts that runup encloses; give name and text");
        }
        parts.enclosed.push_back({*name, *text});
    }
}

TablePlace place_of_name(const Block& block) {
    return block.places.of("name");
}
template <class Entry>
TablePlace place_of_name(const Entry& entry) {
    return entry.place;
}

template <class List>
void refuse_doubles(const List& list, const char* table) {
    std::set<std::string_view> seen;
    for (const auto& one : list) {
        if (!seen.insert(one.name).second) {
            const TablePlace at = place_of_name(one);
            throw InputError(at.file, at.line, std::string(table) + ".name",
                             quoted(one.name) + " is there already; give another name");
        }
    }
}

}  // namespace

SuiteParts parse_suite_parts(std::string_view text, const std::string& file) {
    if (text.find_first_not_of(" \t\r\n") == std::string_view::npos) {
        throw InputError(file, 0, "", "the file is empty; give a suite with [suite] and [[block]]");
    }
    const File parsed = parsed_file(text, file, "its [table]");
    SuiteParts parts;
    const std::vector<ScenarioTable> tables = suite_tables(parts);
    bool has_heading = false;
    for (const GivenKey& given : keys_in_file_order(parsed->root, parsed->name)) {
        if (given.name == enclosed_table) {
            read_enclosed(given, parts);
            continue;
        }
        const auto form =
            std::find_if(tables.begin(), tables.end(),
                         [&given](const ScenarioTable& one) { return one.name == given.name; });
        if (form == tables.end()) {
            refuse_unknown(given, tables);
        }
        read_given(given, *form, parsed, parts);
        has_heading = has_heading || given.name == "suite";
    }
    if (!has_heading) {
        throw InputError(file, 0, "suite", "this table is missing; give [suite] with a title");
    }
    if (parts.blocks.empty() && parts.heading.include.empty()) {
        throw InputError(file, 0, "block",
                         "this suite has no case; give a [[block]], or suites to include");
    }
    refuse_doubles(parts.expectations, "expectation");
    refuse_doubles(parts.compressors, "compressor");
    refuse_doubles(parts.supplies, "supply");
    refuse_doubles(parts.conditions, "condition");
    refuse_doubles(parts.faults, "fault");
    refuse_doubles(parts.settings, "setting");
    refuse_doubles(parts.blocks, "block");
    return parts;
}

}  // namespace sim
