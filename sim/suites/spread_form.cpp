#include <fmt/format.h>

#include "sim/suites/suite_forms.hpp"

namespace sim {

namespace {

template <class D>
TableKind spread_kind(std::deque<Spread>& spreads) {
    return {
        D::kind, [&spreads]() {
            Spread& target = spreads.emplace_back();
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
                text_key("group", most_suite_name_bytes, std::nullopt,
                         "by which blocks choose it, with all others of the group", target.group),
                {"input", inputs, std::nullopt, meaning, [&target](const KeyValue& value) {
                     target.input = spread_input_named(std::get<std::string>(value));
                 }}};
            form.keys.insert(form.keys.end(), own.keys.begin(), own.keys.end());
            form.inconsistency = [&target, own = own.inconsistency]() {
                std::string problem = own();
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

}  // namespace

std::vector<TableKind> spread_kinds(std::deque<Spread>& target) {
    return {spread_kind<FixedValue>(target), spread_kind<Uniform>(target),
            spread_kind<Triangular>(target), spread_kind<TruncatedNormal>(target),
            spread_kind<TruncatedLogNormal>(target)};
}

}  // namespace sim
