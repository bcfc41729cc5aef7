#include "sim/scenario/scenario_reader.hpp"

#include <algorithm>
#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include "sim/files/bounded_input.hpp"
#include "sim/files/quoting.hpp"
#include "sim/scenario/closest_word.hpp"
#include "sim/scenario/given_keys.hpp"
#include "sim/scenario/scenario_tables.hpp"
#include "sim/scenario/table_reading.hpp"

namespace sim {

namespace {

// The longest reason that the parser gives by itself is shorter; what is cut is quoted input.
constexpr std::size_t most_reason_bytes = 160;

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
    try {
        return toml::parse(text);
    } catch (const toml::parse_error& error) {
        // The parser quotes what it stumbled over, which may be anything.
        throw InputError(file, static_cast<int>(error.source().begin.line), "",
                         "this is not valid TOML (" +
                             shortened(error.description(), most_reason_bytes) +
                             "); give each key once, as key = value, under its [table]");
    }
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

void read_tables(const toml::table& root, const std::string& file,
                 const std::vector<ScenarioTable>& tables) {
    const std::vector<GivenKey> given_tables = keys_in_file_order(root);
    for (const GivenKey& given : given_tables) {
        const auto table =
            std::find_if(tables.begin(), tables.end(),
                         [&given](const ScenarioTable& one) { return one.name == given.name; });
        if (table == tables.end()) {
            refuse_unknown_table(given, file, tables);
        }
        const TablePlace place{file, given.line};
        if (!given.value->is_table()) {
            throw InputError(file, place.line, std::string(table->name),
                             "this is not a table; give [" + std::string(table->name) +
                                 "] once, with its keys below");
        }
        read_table(*given.value->as_table(), place, *table);
    }
    // Last, because a table that seems missing is often one whose name was mistyped.
    for (const ScenarioTable& table : tables) {
        const bool is_given =
            std::any_of(given_tables.begin(), given_tables.end(),
                        [&table](const GivenKey& given) { return given.name == table.name; });
        if (is_given) {
            continue;
        }
        if (table.is_required) {
            throw InputError(file, 0, std::string(table.name),
                             "this table is missing; give [" + std::string(table.name) + "] (" +
                                 std::string(table.meaning) + ")");
        }
        // A table that may be left out has one form and only keys with defaults.
        table.kinds.front().begin();
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
    read_tables(parsed(text, file), file, tables);
    return scenario;
}

}  // namespace sim
