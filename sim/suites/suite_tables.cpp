#include "sim/suites/suite_tables.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "sim/scenario/key_reference.hpp"
#include "sim/suites/figure_list.hpp"

namespace sim {

namespace {

constexpr std::size_t most_name_bytes = 60;
constexpr std::size_t most_path_bytes = 1000;
constexpr std::size_t most_names = 200;
/// Beyond what any figure reaches.
constexpr double widest_limit = 1e9;
/// Of a block; more are better split into blocks.
constexpr int most_draws = 1'000'000;
constexpr int most_starts = 10'000;
constexpr std::string_view at_least = "at_least_";
constexpr std::string_view at_most = "at_most_";

const std::function<std::string()> always_consistent = []() { return std::string(); };

Key text_key(const char* name, std::size_t most_bytes, std::optional<std::string> default_text,
             const char* meaning, std::string& target) {
    return {name, TextRule{most_bytes}, std::move(default_text), meaning,
            [&target](const KeyValue& value) { target = std::get<std::string>(value); }};
}

Key names_key(const char* name, std::size_t most_bytes, std::optional<std::string> default_text,
              const char* meaning, std::vector<std::string>& target) {
    return {
        name, NameListRule{most_names, most_bytes}, std::move(default_text), meaning,
        [&target](const KeyValue& value) { target = std::get<std::vector<std::string>>(value); }};
}

Key count_key(const char* name, int most, const char* meaning, int& target) {
    return {name, NumberRule{1, static_cast<double>(most), true, false}, std::to_string(target),
            meaning, [&target](const KeyValue& value) {
                target = static_cast<int>(std::get<double>(value));
            }};
}

TableForm heading_form(SuiteHeading& target) {
    target = SuiteHeading{};
    return {
        {text_key("title", 120, std::nullopt, "what the suite is, for people", target.title),
         {"seed", NumberRule{0, static_cast<double>(std::numeric_limits<int>::max()), true, false},
          "1", "of everything that chance decides",
          [&target](const KeyValue& value) {
              target.seed = static_cast<std::uint32_t>(std::get<double>(value));
          }},
         names_key("include", most_path_bytes, "none",
                   "suites whose cases come behind this one's own: names of bundled ones, or "
                   "paths that end in .toml, from this file's folder",
                   target.include)},
        always_consistent};
}

template <class D>
TableKind spread_kind(SuiteParts& parts) {
    return {
        D::kind, [&parts]() {
            Spread& target = parts.spreads.emplace_back();
            TableForm own = form_of(target.distribution.emplace<D>());
            WordRule inputs;
            std::string meaning = "what is drawn";
            for (const SpreadInput& input : spread_inputs()) {
                inputs.words.push_back(input.name);
                meaning += fmt::format("\n{}, {:g} to {:g}: {}", input.name, input.lowest,
                                       input.highest, input.meaning);
            }
            TableForm form;
            form.keys = {
                text_key("group", most_name_bytes, std::nullopt,
                         "by which blocks choose it, with all others of the group", target.group),
                {"input", inputs, std::nullopt, meaning, [&target](const KeyValue& value) {
                     target.input = spread_input_named(std::get<std::string>(value));
                 }}};
            form.keys.insert(form.keys.end(), own.keys.begin(), own.keys.end());
            form.inconsistency = [&target, own = own.inconsistency]() {
                const std::string problem = own();
                if (!problem.empty()) {
                    return problem;
                }
                const SpreadInput& input = *target.input;
                const bool fits = lowest_of(target.distribution) >= input.lowest &&
                                  highest_of(target.distribution) <= input.highest;
                return fits ? std::string()
                            : fmt::format(
                                  "lowest and highest of {} stay from {:g} to {:g}; "
                                  "give a narrower spread",
                                  input.name, input.lowest, input.highest);
            };
            return form;
        }};
}

void append_limit_keys(Keys& keys, Requirements& target) {
    const auto limit_of = [&target](std::string_view figure) -> FigureLimit& {
        const auto found =
            std::find_if(target.limits.begin(), target.limits.end(),
                         [figure](const FigureLimit& one) { return one.figure == figure; });
        return found != target.limits.end()
                   ? *found
                   : target.limits.emplace_back(FigureLimit{std::string(figure), {}, {}});
    };
    for (const Figure& figure : figure_list()) {
        const NumberRule rule{-widest_limit, widest_limit, false, false};
        keys.push_back({std::string(at_least) + std::string(figure.name), rule, "no limit",
                        std::string(figure.meaning), [&figure, limit_of](const KeyValue& value) {
                            limit_of(figure.name).lowest = std::get<double>(value);
                        }});
        keys.push_back({std::string(at_most) + std::string(figure.name), rule, "no limit",
                        std::string(figure.meaning), [&figure, limit_of](const KeyValue& value) {
                            limit_of(figure.name).highest = std::get<double>(value);
                        }});
    }
}

std::string problem_of(const Requirements& target) {
    for (const std::string& name : target.outcome_names) {
        if (!outcome_from_word(name)) {
            std::string words;
            for (const OutcomeWord& row : outcome_words()) {
                words += (words.empty() ? "" : ", ") + std::string(row.word);
            }
            return fmt::format("outcome holds \"{}\", which is none; give one or more of {}", name,
                               words);
        }
    }
    for (const FigureLimit& limit : target.limits) {
        if (limit.lowest && limit.highest && *limit.lowest > *limit.highest) {
            return fmt::format("{0}{2} is above {1}{2}; give the lower one first", at_least,
                               at_most, limit.figure);
        }
    }
    return {};
}

TableForm expectation_form(Requirements& target) {
    target.outcome_names = {std::string(word_of(Outcome::running))};
    std::string meaning = "what a start may end in";
    for (const OutcomeWord& row : outcome_words()) {
        meaning += "\n" + std::string(row.word) + ": " + std::string(row.meaning);
    }
    TableForm form;
    form.keys = {
        text_key("name", most_name_bytes, std::nullopt, "by which blocks name it", target.name),
        {"outcome", NameListRule{outcome_words().size(), most_name_bytes}, "\"running\"", meaning,
         [&target](const KeyValue& value) {
             target.outcome_names = std::get<std::vector<std::string>>(value);
         }}};
    append_limit_keys(form.keys, target);
    form.inconsistency = [&target]() { return problem_of(target); };
    return form;
}

constexpr const char* name_meaning = "by which blocks name it, and as results show it";

TableForm entry_form(SideEntry& target) {
    return {{text_key("name", most_name_bytes, std::nullopt, name_meaning, target.name)},
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

constexpr std::array<Way, 4> ways{Way::directly, Way::thermistor, Way::capacitor_relay,
                                  Way::limiter};

TableForm setting_form(SideEntry& target) {
    TableForm form = entry_form(target);
    WordRule rule;
    for (const Way way : ways) {
        rule.words.push_back(word_of(way));
    }
    form.keys.push_back(
        {"way", rule, "as its tables say",
         "way of starting, fitted to each compressor as runup size does it; the setting's tables "
         "are laid over a limiter",
         [&target](const KeyValue& value) {
             target.way = *std::find_if(ways.begin(), ways.end(), [&value](Way way) {
                 return word_of(way) == std::get<std::string>(value);
             });
         }});
    return form;
}

void append_side_keys(Keys& keys, Block& target) {
    keys.push_back(names_key("compressors", most_name_bytes, "those of the scenario",
                             "[[compressor]] tables of this file, bundled ones, or \"all\" bundled "
                             "ones",
                             target.compressors));
    keys.push_back(names_key("supplies", most_name_bytes, "those of the scenario",
                             "[[supply]] tables of this file, bundled ones, \"all\" bundled ones, "
                             "or \"fitting\": of all, those that suit the compressor",
                             target.supplies));
    keys.push_back(names_key("conditions", most_name_bytes, "as the scenario says",
                             "[[condition]] tables of this file", target.conditions));
    keys.push_back(names_key("faults", most_name_bytes, "none",
                             "[[fault]] tables of this file; \"single\": every single fault as in "
                             "runup faults; the beginning of such a fault's name; \"none\": the "
                             "healthy start beside them",
                             target.faults));
    keys.push_back({"fault_at_s", NumberListRule{{0, 7200, false, false}, 1, 200}, "[0.3]",
                    "when the single faults begin, one case each",
                    [&target](const KeyValue& value) {
                        target.fault_at_s = std::get<std::vector<double>>(value);
                    }});
    keys.push_back(names_key("settings", most_name_bytes, "as the scenario says",
                             "[[setting]] tables of this file, or a way of starting as runup size "
                             "names it: directly, thermistor, capacitor_relay or limiter",
                             target.settings));
    keys.push_back({"misfits", WordRule{{"refuse", "leave_out"}}, "\"refuse\"",
                    "what becomes of cells whose parts do not go together: a compressor on a "
                    "supply of another voltage or frequency, a fault of a part that is not there\n"
                    "refuse: the suite is bad input\n"
                    "leave_out: the matrix goes without them",
                    [&target](const KeyValue& value) {
                        target.leaves_out_misfits = std::get<std::string>(value) == "leave_out";
                    }});
}

TableForm block_form(Block& target) {
    target.fault_at_s = {0.3};
    TableForm form;
    form.keys = {text_key("name", most_name_bytes, std::nullopt, name_meaning, target.name),
                 text_key("scenario", most_path_bytes, "none",
                          "that everything is laid over: the name of a bundled one, or a path that "
                          "ends in .toml, from this file's folder; without one, a compressor of "
                          "the side on a supply of the side, started directly",
                          target.scenario)};
    append_side_keys(form.keys, target);
    form.keys.push_back(
        count_key("draws", most_draws, "cases in each cell, each with its own luck", target.draws));
    form.keys.push_back(names_key("spreads", most_name_bytes, "none",
                                  "groups of [[spread]] from which each case draws",
                                  target.spreads));
    form.keys.push_back(count_key("starts", most_starts,
                                  "in each case; above 1 a series on one plant, with the rest and "
                                  "the power of [run]",
                                  target.starts));
    form.keys.push_back(text_key("expect", most_name_bytes, "the scenario's [expect]",
                                 "name of an [[expectation]]", target.expect));
    form.keys.push_back({"success_at_least_percent", NumberRule{0, 100, false, false},
                         "every start",
                         "starts of the block that end as expected; the others then fail the suite "
                         "only together",
                         [&target](const KeyValue& value) {
                             target.success_at_least_percent = std::get<double>(value);
                         }});
    form.inconsistency = always_consistent;
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

std::vector<Outcome> Requirements::accepted() const {
    std::vector<Outcome> outcomes;
    for (const std::string& word : outcome_names) {
        outcomes.push_back(outcome_from_word(word).value());
    }
    return outcomes;
}

std::vector<ScenarioTable> suite_tables(SuiteParts& target) {
    return {
        {"suite",
         true,
         "heading",
         {TableKind{"", [&target]() { return heading_form(target.heading); }}}},
        {"spread",
         false,
         "distribution of an input",
         {spread_kind<FixedValue>(target), spread_kind<Uniform>(target),
          spread_kind<Triangular>(target), spread_kind<TruncatedNormal>(target),
          spread_kind<TruncatedLogNormal>(target)},
         true},
        {"expectation",
         false,
         "what starts are held to, beside the monitors, of which none may be broken",
         {only_kind(target.expectations, &expectation_form)},
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
         {only_kind(target.blocks, &block_form)},
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
