#include "sim/scenario/key_reference.hpp"

#include "sim/scenario/fitting_together.hpp"
#include "sim/scenario/scenario_tables.hpp"

namespace sim {

namespace {

/// A meaning may have several lines; all of them stand below their key.
std::string indented(const std::string& lines) {
    std::string text = "      ";
    for (const char letter : lines) {
        text += letter;
        if (letter == '\n') {
            text += "        ";
        }
    }
    return text + "\n";
}

std::string describe_key(const Key& key) {
    const std::string default_text =
        key.default_text ? "default " + *key.default_text : std::string("must be given");
    return "  " + key.name + " = " + accepted_by(key.rule) + "; " + default_text + "\n" +
           indented(key.meaning);
}

}  // namespace

std::string describe(const ScenarioTable& table) {
    std::string text =
        "[" + std::string(table.name) + "] " + std::string(table.meaning) +
        (table.is_required ? "; must be given"
         : table.is_list   ? "; as often as wanted, each as [[" + std::string(table.name) + "]]"
                           : std::string("; may be left out")) +
        "\n";
    for (const TableKind& kind : table.kinds) {
        if (!kind.kind.empty()) {
            text += "  kind = \"" + std::string(kind.kind) + "\"\n";
            if (!kind.meaning.empty()) {
                text += indented(std::string(kind.meaning));
            }
        }
        for (const Key& key : kind.begin().keys) {
            text += describe_key(key);
        }
    }
    return text;
}

std::string describe_keys() {
    Scenario scenario;
    std::string text =
        "A scenario is a TOML file. Keys end in their unit; bounds are included.\n"
        "A whole number is written without a decimal point.\n";
    for (const ScenarioTable& table : scenario_tables(scenario)) {
        text += "\n" + describe(table);
    }
    return text + "\n" + std::string(fitting_rules());
}

std::optional<std::string> describe_table(std::string_view name) {
    Scenario scenario;
    for (const ScenarioTable& table : scenario_tables(scenario)) {
        if (table.name == name) {
            return describe(table);
        }
    }
    return std::nullopt;
}

std::vector<std::string_view> table_names() {
    Scenario scenario;
    std::vector<std::string_view> names;
    for (const ScenarioTable& table : scenario_tables(scenario)) {
        names.push_back(table.name);
    }
    return names;
}

}  // namespace sim
