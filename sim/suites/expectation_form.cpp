#include <fmt/format.h>

#include <algorithm>

#include "sim/suites/figure_list.hpp"
#include "sim/suites/suite_forms.hpp"

namespace sim {

namespace {

/// Beyond what any figure reaches.
constexpr double widest_limit = 1e9;
constexpr std::string_view at_least = "at_least_";
constexpr std::string_view at_most = "at_most_";

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

}  // namespace

TableForm form_of(Requirements& target) {
    target.outcome_names = {std::string(word_of(Outcome::running))};
    std::string meaning = "what a start may end in";
    for (const OutcomeWord& row : outcome_words()) {
        meaning += "\n" + std::string(row.word) + ": " + std::string(row.meaning);
    }
    TableForm form;
    form.keys = {text_key("name", most_suite_name_bytes, std::nullopt, "by which blocks name it",
                          target.name),
                 {"outcome", NameListRule{outcome_words().size(), most_suite_name_bytes},
                  "\"running\"", meaning, [&target](const KeyValue& value) {
                      target.outcome_names = std::get<std::vector<std::string>>(value);
                  }}};
    append_limit_keys(form.keys, target);
    form.inconsistency = [&target]() { return problem_of(target); };
    return form;
}

std::vector<Outcome> Requirements::accepted() const {
    std::vector<Outcome> outcomes;
    for (const std::string& word : outcome_names) {
        outcomes.push_back(outcome_from_word(word).value());
    }
    return outcomes;
}

}  // namespace sim
