#include "sim/scenario/scenario_reader.hpp"

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

#include "sim/files/bounded_input.hpp"
#include "sim/files/quoting.hpp"
#include "sim/library/library.hpp"
#include "sim/scenario/scenario_layers.hpp"

namespace sim {

namespace {

std::string required_tables(const std::vector<ScenarioTable>& tables) {
    std::string text;
    for (const ScenarioTable& table : tables) {
        if (table.is_required) {
            text += (text.empty() ? "[" : ", [") + std::string(table.name) + "]";
        }
    }
    return text;
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
            "the file is empty; give a scenario with the tables " + required_tables(tables));
    }
    std::vector<ScenarioLayer> layers{layer_of(parsed_file(text, file, "its [table]"))};
    refuse_unknown_tables(layers.front(), tables);
    read_library_choice(layers.front(), scenario.library);
    for (const LibraryEntry* entry : scenario.library.entries()) {
        layers.push_back(layer_of(*entry));
    }
    read_layers(layers, 1, TablePlace{file, 0}, scenario);
    return scenario;
}

Scenario parse_library_entry(const LibraryEntry& entry) {
    Scenario scenario;
    const ScenarioLayer layer = layer_of(entry);
    const std::vector<ScenarioTable> tables = scenario_tables(scenario);
    refuse_unknown_tables(layer, tables);
    for (const ScenarioTable& table : tables) {
        const auto given =
            std::find_if(layer.tables.begin(), layer.tables.end(),
                         [&table](const GivenKey& one) { return one.name == table.name; });
        if (given != layer.tables.end()) {
            read_table(*given->value->as_table(), {layer.file->name, given->line}, table);
        } else if (!table.is_required && !table.is_list) {
            table.kinds.front().begin();
        }
    }
    scenario.name = entry.name;
    return scenario;
}

}  // namespace sim
