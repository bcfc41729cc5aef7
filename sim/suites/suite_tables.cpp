#include "sim/suites/suite_tables.hpp"

#include <algorithm>
#include <limits>

#include "sim/scenario/key_reference.hpp"
#include "sim/suites/suite_forms.hpp"

namespace sim {

namespace {

TableForm heading_form(SuiteHeading& target) {
    target = SuiteHeading{};
    return {
        {text_key("title", 120, std::nullopt, "what the suite is, for people", target.title),
         {"seed", NumberRule{0, static_cast<double>(std::numeric_limits<int>::max()), true, false},
          "1", "of everything that chance decides",
          [&target](const KeyValue& value) {
              target.seed = static_cast<std::uint32_t>(std::get<double>(value));
          }},
         names_key("include", most_suite_path_bytes, "none",
                   "suites whose cases come behind this one's own: names of bundled ones, or "
                   "paths that end in .toml, from this file's folder",
                   target.include)},
        always_consistent};
}

constexpr const char* name_meaning = "by which blocks name it, and as results show it";

TableForm entry_form(SideEntry& target) {
    return {{text_key("name", most_suite_name_bytes, std::nullopt, name_meaning, target.name)},
            always_consistent};
}

TableForm library_entry_form(SideEntry& target, const std::vector<LibraryEntry>& entries) {
    TableForm form = entry_form(target);
    WordRule rule;
    for (const LibraryEntry& entry : entries) {
        rule.words.push_back(entry.name);
    }
    form.keys.push_back({"library", rule, "none", "bundled one that its tables are laid over",
                         [&target, &entries](const KeyValue& value) {
                             target.library = find_entry(entries, std::get<std::string>(value));
                         }});
    return form;
}

TableForm setting_form(SideEntry& target) {
    TableForm form = entry_form(target);
    WordRule rule;
    for (const Way way : every_way) {
        rule.words.push_back(word_of(way));
    }
    form.keys.push_back(
        {"way", rule, "as its tables say",
         "way of starting, fitted to each compressor as runup size does it; the setting's tables "
         "are laid over a limiter",
         [&target](const KeyValue& value) {
             target.way = *std::find_if(every_way.begin(), every_way.end(), [&value](Way way) {
                 return word_of(way) == std::get<std::string>(value);
             });
         }});
    return form;
}

template <class Entry>
TableKind only_kind(std::deque<Entry>& list, TableForm (*form)(Entry&)) {
    return {"", [&list, form]() { return form(list.emplace_back()); }};
}

TableKind library_kind(std::deque<SideEntry>& list, const std::vector<LibraryEntry>& entries) {
    return {"", [&list, &entries]() { return library_entry_form(list.emplace_back(), entries); }};
}

}  // namespace

std::vector<ScenarioTable> suite_tables(SuiteParts& target) {
    return {
        {"suite",
         true,
         "heading",
         {TableKind{"", [&target]() { return heading_form(target.heading); }}}},
        {"spread", false, "distribution of an input", spread_kinds(target.spreads), true},
        {"expectation",
         false,
         "what starts are held to, beside the monitors, of which none may be broken",
         {only_kind<Requirements>(target.expectations, &form_of)},
         true},
        {"compressor",
         false,
         "compressor, with tables of a scenario below it",
         {library_kind(target.compressors, library_compressors())},
         true},
        {"supply",
         false,
         "supply, with tables of a scenario below it",
         {library_kind(target.supplies, library_supplies())},
         true},
        {"condition",
         false,
         "conditions, with tables of a scenario below it",
         {only_kind(target.conditions, &entry_form)},
         true},
        {"fault",
         false,
         "fault, with tables of a scenario below it ([[fault.fault]])",
         {only_kind(target.faults, &entry_form)},
         true},
        {"setting",
         false,
         "what stands between line and motor, with tables of a scenario below it",
         {only_kind(target.settings, &setting_form)},
         true},
        {"block",
         false,
         "matrix of names, with tables of a scenario below it",
         {only_kind<Block>(target.blocks, &form_of)},
         true},
    };
}

bool holds_scenario_tables(std::string_view suite_table) {
    return suite_table != "suite" && suite_table != "spread" && suite_table != "expectation";
}

const std::vector<std::string_view>& tables_of_unit() {
    static const std::vector<std::string_view> names{"motor",     "load",      "refrigerant",
                                                     "heat",      "protector", "protection_module",
                                                     "contactor", "start_aid"};
    return names;
}

const std::vector<std::string_view>& tables_of_supply() {
    static const std::vector<std::string_view> names{"source", "wiring"};
    return names;
}

const std::vector<std::string_view>& tables_of_no_layer() {
    static const std::vector<std::string_view> names{heading_table, library_table, "expect"};
    return names;
}

std::string describe_suite_keys() {
    SuiteParts parts;
    std::string text =
        "A suite is a TOML file. Its cases are numbered from 0: the blocks in their order, in "
        "each\n"
        "block every compressor with every supply, condition, fault and setting, in each such "
        "cell\n"
        "every draw; then the included suites. A draw is the same for all settings of its place.\n"
        "In a cell, the setting's tables lie over those of fault, condition, supply, compressor,\n"
        "block and scenario, in this order. A compressor replaces every table of the unit, a\n"
        "supply [source] and [wiring].\n";
    for (const ScenarioTable& table : suite_tables(parts)) {
        text += "\n" + describe(table);
    }
    return text;
}

}  // namespace sim
