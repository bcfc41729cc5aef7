#include "sim/explaining/explanation.hpp"

#include <algorithm>
#include <mutex>
#include <utility>

#include "sim/explaining/change_list.hpp"
#include "sim/explaining/in_parallel.hpp"
#include "sim/explaining/start_record.hpp"

namespace sim {

namespace {

/// Reruns of a start that takes longer than this to be decided are too dear for a close look.
constexpr double long_run_s = 10.0;

/// Engineering judgement: what a practitioner can set, or buy, to.
Fineness fineness_for(const Scenario& scenario) {
    Fineness fineness;
    if (scenario.run.duration_s > long_run_s) {
        fineness.looks = 1;
        fineness.ratio = 1.2;
        fineness.share_of_way = 0.1;
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
    explanation.start = run_start(scenario, &record);
    explanation.comes_up = comes_up(explanation.start);
    explanation.story = tell_story(scenario, record, explanation.start);
    explanation.fineness = fineness_for(scenario);

    const Changes changes = explanation.comes_up ? strains_for(scenario) : remedies_for(scenario);
    std::vector<std::optional<WayOfChange>> ways(changes.size());
    std::mutex mutex;
    int done = 0;
    in_parallel(changes.size(), control.threads, [&](std::size_t k) {
        ways[k] = search_way(scenario, changes[k], explanation.comes_up, explanation.fineness,
                             control.interrupted);
        const std::lock_guard<std::mutex> lock(mutex);
        ++done;
        if (control.progress) {
            control.progress(done, static_cast<int>(changes.size()));
        }
    });
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
