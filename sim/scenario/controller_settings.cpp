#include "sim/scenario/controller_settings.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <vector>

#include "sim/scenario/controller_setting_rows.hpp"

namespace sim {

namespace {

using firmware::LearningLawKind;
using firmware::RampLawKind;
using firmware::Settings;
using firmware::SettingsProblem;
using firmware::StageSettings;

constexpr std::string_view ramp_law_key = "ramp_law";

constexpr std::string_view learning_law_key = "learning_law";

/// How a scenario names the laws of one kind.
template <class Kind>
struct LawWord {
    Kind kind;
    std::string_view word;
};
constexpr std::array<LawWord<RampLawKind>, firmware::ramp_law_count> ramp_law_words = {
    {{RampLawKind::stage_ladder, "stage_ladder"}}};
constexpr std::array<LawWord<LearningLawKind>, firmware::learning_law_count> learning_law_words = {
    {{LearningLawKind::easing, "easing"}, {LearningLawKind::none, "none"}}};

NumberRule rule_of(double lowest, double highest, double per_unit) {
    return {lowest, highest, per_unit == 1.0, false};
}

std::int32_t counts(double value, double per_unit) {
    return static_cast<std::int32_t>(std::lround(value * per_unit));
}

std::size_t filled_stages(const Settings& settings, std::int32_t StageSettings::*field) {
    const auto is_filled = [field](const StageSettings& stage) { return stage.*field != 0; };
    return static_cast<std::size_t>(
        std::count_if(settings.stages.begin(), settings.stages.end(), is_filled));
}

Key key_for(const NumberSetting& row, Settings& target) {
    // The rows live as long as the program, so a reference to one may be kept.
    const auto store = [&row, &target](const KeyValue& value) {
        target.*row.field = counts(std::get<double>(value), row.per_unit);
    };
    return {std::string(row.key), rule_of(row.lowest, row.highest, row.per_unit),
            number_text(target.*row.field / row.per_unit), std::string(row.meaning), store};
}

Key key_for(const StageList& list, Settings& target) {
    // A place that a list does not fill is zero, which shows when the two lists differ in length.
    const auto store = [&list, &target](const KeyValue& value) {
        const auto& numbers = std::get<std::vector<double>>(value);
        for (std::size_t i = 0; i < target.stages.size(); ++i) {
            target.stages[i].*list.field =
                i < numbers.size() ? counts(numbers[i], list.per_unit) : 0;
        }
        target.stage_count =
            static_cast<std::int32_t>(filled_stages(target, &StageSettings::target_permille));
    };
    std::string default_text;
    for (std::size_t i = 0; i < static_cast<std::size_t>(target.stage_count); ++i) {
        default_text +=
            (i == 0 ? "[" : ", ") + number_text(target.stages[i].*list.field / list.per_unit);
    }
    return {
        std::string(list.key),
        NumberListRule{rule_of(list.lowest, list.highest, list.per_unit), 1, Settings::most_stages},
        default_text + "]", std::string(list.meaning), store};
}

template <class Words, class Kind>
Key law_choice(std::string_view key, const Words& words, const char* meaning, Kind& target) {
    WordRule rule;
    std::string default_text;
    for (const auto& row : words) {
        rule.words.push_back(row.word);
        if (row.kind == target) {
            default_text = '"' + std::string(row.word) + '"';
        }
    }
    const auto store = [&words, &target](const KeyValue& value) {
        const auto& word = std::get<std::string>(value);
        target = std::find_if(words.begin(), words.end(), [&word](const auto& row) {
                     return row.word == word;
                 })->kind;
    };
    return {std::string(key), rule, default_text, meaning, store};
}

/// The row or list whose field the controller's check names, shown to `use`.
template <class Use>
auto with_row_of(SettingsProblem problem, Use use) {
    for (const NumberSetting& row : number_settings()) {
        if (row.problem == problem) {
            return use(row.key, row.relation);
        }
    }
    for (const StageList& list : stage_lists()) {
        if (list.problem == problem) {
            return use(list.key, list.relation);
        }
    }
    if (problem == SettingsProblem::ramp_law) {
        return use(ramp_law_key, std::string_view());
    }
    if (problem == SettingsProblem::learning_law) {
        return use(learning_law_key, std::string_view());
    }
    // The number of stages is the length of the list.
    const bool is_count = problem == SettingsProblem::stage_count;
    return use(is_count ? stage_lists()[0].key : std::string_view(), std::string_view());
}

}  // namespace

void append_controller_keys(Keys& keys, Settings& target) {
    // The defaults that the keys show are read from the target, so they must stand in it first.
    target = Settings{};
    keys.push_back(
        law_choice(ramp_law_key, ramp_law_words, "how the current climbs", target.ramp_law));
    keys.push_back(law_choice(learning_law_key, learning_law_words,
                              "how the ladder is adjusted from start to start\n"
                              "easing: eases the ladder for as long as that lowers the current\n"
                              "none: every start climbs the ladder given here",
                              target.learning_law));
    for (const StageList& list : stage_lists()) {
        keys.push_back(key_for(list, target));
    }
    for (const NumberSetting& row : number_settings()) {
        keys.push_back(key_for(row, target));
    }
}

std::vector<std::string_view> learning_law_names() {
    std::vector<std::string_view> names;
    names.reserve(learning_law_words.size());
    for (const auto& row : learning_law_words) {
        names.push_back(row.word);
    }
    return names;
}

std::optional<LearningLawKind> learning_law_of(std::string_view word) {
    const auto row = std::find_if(learning_law_words.begin(), learning_law_words.end(),
                                  [word](const auto& one) { return one.word == word; });
    return row == learning_law_words.end() ? std::nullopt
                                           : std::optional<LearningLawKind>(row->kind);
}

std::string_view key_of(SettingsProblem problem) {
    return with_row_of(problem, [](std::string_view key, std::string_view) { return key; });
}

std::string controller_problem(const Settings& settings) {
    SettingsProblem problem = firmware::check(settings);
    // The controller looks only at the stages that it will use.
    if (filled_stages(settings, &StageSettings::dwell_ms) !=
        static_cast<std::size_t>(settings.stage_count)) {
        problem = SettingsProblem::stage_dwell_ms;
    }
    if (problem == SettingsProblem::none) {
        return "";
    }
    return with_row_of(problem, [problem](std::string_view key, std::string_view relation) {
        return std::string(key.empty() ? firmware::name_of(problem) : key) + " " +
               std::string(relation.empty() ? "is outside what the controller accepts" : relation);
    });
}

}  // namespace sim
