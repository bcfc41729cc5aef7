#include "sim/scenario/scenario_change.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "plant_models/conditions.hpp"
#include "sim/scenario/run_settings.hpp"

namespace sim {

namespace {

using Number = std::optional<double> ScenarioChange::*;

constexpr int last_start = 10000;

/// A key of the change, and how the change is told.
struct NumberOfChange {
    const char* key;
    Number field;
    double lowest;
    double highest;
    const char* meaning;
    const char* words;  ///< with a place for the number
};

const std::array<NumberOfChange, 7>& numbers() {
    // The bounds of the two that stand elsewhere in the scenario are those of its tables. Of the
    // factors: far beyond what ages or what a line does (engineering judgement).
    static const auto row_of = [](std::string_view key) {
        const auto& rows = plant_models::Conditions::table();
        return *std::find_if(rows.begin(), rows.end(),
                             [key](const auto& row) { return row.key == key; });
    };
    using C = ScenarioChange;
    static const std::array<NumberOfChange, 7> rows = {{
        {"ambient_C", &C::ambient_C, row_of("ambient_C").lowest, row_of("ambient_C").highest,
         "air around the unit", "ambient {:g} C"},
        {"rest_between_s", &C::rest_between_s, shortest_rest_between_s, longest_rest_between_s,
         "from the end of a start to the beginning of the next", "{:g} s of rest"},
        {"line_voltage_factor", &C::line_voltage_factor, 0.5, 1.3,
         "of the source's voltage; only of a grid or a split phase, others hold their own",
         "line voltage x {:g}"},
        {"run_capacitor_factor", &C::run_capacitor_factor, 0.1, 2,
         "of the motor's run_capacitor_uF", "run capacitor x {:g}"},
        {"friction_factor", &C::friction_factor, 0.1, 10,
         "of the bearings: the motor's friction loss, the load's breakaway and constant torque",
         "friction x {:g}"},
        {"run_capacitor_factor_per_start", &C::run_capacitor_factor_per_start, 0.9, 1.1,
         "ageing: what each start from here on makes of the factor",
         "run capacitor x {:g} each start"},
        {"friction_factor_per_start", &C::friction_factor_per_start, 0.9, 1.1,
         "wear: what each start from here on makes of the factor", "friction x {:g} each start"},
    }};
    return rows;
}

std::string problem_of(const ScenarioChange& change) {
    const bool any = change.compressor != nullptr ||
                     std::any_of(numbers().begin(), numbers().end(),
                                 [&](const auto& row) { return (change.*row.field).has_value(); });
    return any ? "" : "before_start alone changes nothing; give what becomes different, too";
}

}  // namespace

TableForm form_of(ScenarioChange& target) {
    target = ScenarioChange{};
    TableForm form;
    form.keys.push_back({"before_start", NumberRule{2, last_start, true, false}, std::nullopt,
                         "number of the start before which it changes",
                         [&target](const KeyValue& value) {
                             target.before_start = static_cast<int>(std::get<double>(value));
                         }});
    for (const NumberOfChange& row : numbers()) {
        form.keys.push_back({row.key, NumberRule{row.lowest, row.highest, false, false},
                             "as before", row.meaning, [&row, &target](const KeyValue& value) {
                                 target.*row.field = std::get<double>(value);
                             }});
    }
    WordRule names;
    for (const LibraryEntry& entry : library_compressors()) {
        names.words.push_back(entry.name);
    }
    form.keys.push_back({"compressor", names, "as before",
                         "bundled compressor that replaces the one before, with all that its file "
                         "says of motor, load and unit",
                         [&target](const KeyValue& value) {
                             target.compressor =
                                 find_entry(library_compressors(), std::get<std::string>(value));
                         }});
    form.inconsistency = [&target]() { return problem_of(target); };
    return form;
}

std::string words_for(const ScenarioChange& change) {
    std::string text =
        change.compressor != nullptr ? "compressor " + std::string(change.compressor->name) : "";
    for (const NumberOfChange& row : numbers()) {
        if (const std::optional<double>& number = change.*row.field) {
            text += (text.empty() ? "" : ", ") + fmt::format(fmt::runtime(row.words), *number);
        }
    }
    return text;
}

}  // namespace sim
