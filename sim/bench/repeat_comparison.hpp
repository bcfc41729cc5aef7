// The same series of starts once per learning law: same scenario, same conditions, same changes.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/bench/repeat_run.hpp"

namespace sim {

struct LawSeries {
    std::string learning_law;  ///< as [limiter] writes it
    RepeatResult result;
};

struct RepeatComparison {
    std::string scenario;
    std::string title;
    std::vector<LawSeries> series;  ///< as asked for; fewer if interrupted

    bool as_expected() const;
};

/// Of a settled series: the largest clamp current from the start it settled with to the end.
std::optional<double> settled_inrush_A(const RepeatResult& result);

/// Over the same of the series named last, which is the yardstick; none if either has not settled,
/// or if an interrupt kept the yardstick from its end.
std::optional<double> settled_ratio(const RepeatComparison& comparison, std::size_t series);

/// `laws`: words that [limiter] learning_law accepts. The scenario must have a built-in controller.
/// Throws what run_repeat throws. `go_on` is asked within every series.
RepeatComparison run_repeat_comparison(const Scenario& scenario, const RepeatPlan& plan,
                                       const std::vector<std::string>& laws, const GoOn& go_on);

}  // namespace sim
