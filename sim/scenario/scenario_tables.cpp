#include "sim/scenario/scenario_tables.hpp"

#include <string>

namespace sim {

namespace {

template <class P>
std::vector<TableKind> only_form_of(P& target) {
    return {TableKind{"", [&target]() { return form_of(target); }}};
}

TableForm motor_form(plant_models::MotorParameters& motor) {
    TableForm form = form_of(motor);
    for (Key& key : form.keys) {
        if (key.name == "poles") {
            // Poles come in pairs; a row of a parameter table has no way to say so.
            std::get<NumberRule>(key.rule).is_even = true;
        }
    }
    return form;
}

TableForm expectation_form(Expectation& expect) {
    WordRule rule;
    std::string meaning = "what the run should end in";
    for (const OutcomeWord& row : outcome_words()) {
        rule.words.push_back(row.word);
        meaning += "\n" + std::string(row.word) + ": " + std::string(row.meaning);
    }
    const auto store = [&expect](const KeyValue& value) {
        expect.outcome = outcome_from_word(std::get<std::string>(value)).value();
    };
    // Every begin puts the default into its place, also when the same target is filled again.
    expect.outcome = Outcome::running;
    const std::string default_text = '"' + std::string(word_of(expect.outcome)) + '"';
    return {{Key{"outcome", rule, default_text, meaning, store}}, []() { return std::string(); }};
}

TableForm heading_form(Scenario& scenario) {
    const auto store = [&scenario](const KeyValue& value) {
        scenario.title = std::get<std::string>(value);
    };
    return {
        {Key{"title", TextRule{120}, "the file's name", "what the scenario is, for people", store}},
        []() { return std::string(); }};
}

}  // namespace

std::vector<ScenarioTable> scenario_tables(Scenario& target) {
    return {
        {heading_table,
         false,
         "heading",
         {TableKind{"", [&target]() { return heading_form(target); }}}},
        {library_table, false, "bundled models that the other tables are laid over",
         only_form_of(target.library)},
        {"conditions", false, "weather, and the rest before the run",
         only_form_of(target.conditions)},
        {"motor",
         true,
         "motor with a main and an auxiliary winding",
         {TableKind{"", [&target]() { return motor_form(target.motor); }}}},
        {"load", true, "what the motor turns", kinds_of(target.load)},
        {"refrigerant", false, "what a compressor pumps, and through what it flows back",
         only_form_of(target.refrigerant)},
        {"heat", false, "temperatures of the unit", kinds_of(target.unit.heat)},
        {"protector", false, "thermal protector in the common lead",
         kinds_of(target.unit.protector)},
        {"protection_module", false, "electronic protection module at the compressor",
         kinds_of(target.unit.protection_module)},
        {"contactor", false, "contactor of the unit", kinds_of(target.unit.contactor)},
        {"start_aid", false, "start aid that the trade fits without a limiter",
         kinds_of(target.unit.start_aid)},
        {"source", true, "supply and its wiring", kinds_of(target.source)},
        {"wiring", false, "conductors between the source and the unit",
         only_form_of(target.wiring)},
        {"limiter", true, "what stands between the line and the motor", kinds_of(target.limiter)},
        {"fault", false, "something that breaks, or somebody's slip, and when",
         fault_kinds(target.faults), true,
         [&target](int line) { target.faults.back().line = line; }},
        {"run", false, "how long to watch, and what happens meanwhile", only_form_of(target.run)},
        {"expect",
         false,
         "what the run should end in",
         {TableKind{"", [&target]() { return expectation_form(target.expect); }}}},
        {"limits", false, "what the monitors hold the controller to, judged on the plant's truth",
         only_form_of(target.limits)},
        {change_table,
         false,
         "runup repeat: what becomes different in the middle of the series",
         {TableKind{"",
                    [&target]() {
                        target.changes.emplace_back();
                        return form_of(target.changes.back());
                    }}},
         true},
    };
}

}  // namespace sim
