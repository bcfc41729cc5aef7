#include "sim/explaining/explanation.hpp"

#include <algorithm>
#include <cstdint>
#include <utility>

#include "sim/explaining/change_list.hpp"
#include "sim/explaining/start_record.hpp"

namespace sim {

namespace {

/// What a start costs, in steps of a unit with nothing fitted around it; measured, whatever is
/// fitted costs three of them.
double cost_of(const Scenario& scenario, std::int64_t steps) {
    constexpr double fitted_factor = 3.0;
    return static_cast<double>(steps) * (scenario.unit.is_bare() ? 1.0 : fitted_factor);
}

/// Two per cent is as close as a practitioner can set, or buy, to. Where reruns are dear, the ways
/// are looked at less closely, so that nobody waits for more than some seconds.
Fineness fineness_for(double cost) {
    constexpr double dear = 5.1e5;
    constexpr double very_dear = 1.2e6;
    Fineness fineness;
    if (cost > very_dear) {
        fineness.looks = 1;
        fineness.most_halvings = 2;
        fineness.patience = Patience::to_the_end;
    } else if (cost > dear) {
        fineness.looks = 3;
    }
    return fineness;
}

bool turns_anything(const std::vector<WayOfChange>& ways) {
    return std::any_of(ways.begin(), ways.end(),
                       [](const WayOfChange& way) { return way.turn.has_value(); });
}

}  // namespace

Explanation explain(const Scenario& scenario, const SearchControl& given_control) {
    SearchControl control = given_control;
    if (!control.interrupted) {
        control.interrupted = [] { return false; };
    }
    Explanation explanation;
    StartRecord record(scenario);
    StartBench bench(scenario);
    explanation.start = bench.run_start(&record);
    explanation.comes_up = comes_up(explanation.start);
    explanation.story = tell_story(scenario, record, explanation.start);
    explanation.fineness = fineness_for(cost_of(scenario, bench.steps()));

    const Changes changes = explanation.comes_up ? strains_for(scenario) : remedies_for(scenario);
    std::vector<std::optional<WayOfChange>> ways(changes.size());
    run_cases(
        changes.size(), control.threads,
        [&](std::size_t k) {
            ways[k] = search_way(scenario, changes[k], explanation.comes_up, explanation.fineness,
                                 control.interrupted);
        },
        control.reported());
    for (std::optional<WayOfChange>& way : ways) {
        if (way) {
            explanation.reruns += way->reruns;
            explanation.ways.push_back(std::move(*way));
        } else {
            ++explanation.ways_not_tried;
        }
    }
    explanation.was_interrupted = explanation.ways_not_tried > 0;
    const bool needs_more =
        !explanation.comes_up && !explanation.was_interrupted && !turns_anything(explanation.ways);
    if (needs_more) {
        explanation.together = search_together(scenario, changes, control);
        explanation.was_interrupted = !explanation.together;
        explanation.reruns += explanation.together ? explanation.together->reruns : 0;
    }
    return explanation;
}

}  // namespace sim
