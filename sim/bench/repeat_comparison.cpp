#include "sim/bench/repeat_comparison.hpp"

#include <algorithm>
#include <variant>

#include "sim/scenario/controller_settings.hpp"

namespace sim {

bool RepeatComparison::as_expected() const {
    return std::all_of(series.begin(), series.end(),
                       [](const LawSeries& one) { return one.result.as_expected(); });
}

std::optional<double> settled_inrush_A(const RepeatResult& result) {
    const std::optional<int> settled = settled_after(result);
    if (!settled) {
        return std::nullopt;
    }
    double largest_A = 0.0;
    for (auto row = result.starts.begin() + (*settled - 1); row != result.starts.end(); ++row) {
        const auto& inrush_A = row->start.figures.line_current_inrush_100ms_rms_A;
        if (!inrush_A) {
            return std::nullopt;
        }
        largest_A = std::max(largest_A, *inrush_A);
    }
    return largest_A;
}

std::optional<double> settled_ratio(const RepeatComparison& comparison, std::size_t series) {
    if (comparison.series.back().result.interrupted) {
        return std::nullopt;
    }
    const std::optional<double> own_A = settled_inrush_A(comparison.series.at(series).result);
    const std::optional<double> yardstick_A = settled_inrush_A(comparison.series.back().result);
    return own_A && yardstick_A ? std::optional<double>(*own_A / *yardstick_A) : std::nullopt;
}

RepeatComparison run_repeat_comparison(const Scenario& scenario, const RepeatPlan& plan,
                                       const std::vector<std::string>& laws, const GoOn& go_on) {
    RepeatComparison comparison;
    comparison.scenario = scenario.name;
    comparison.title = scenario.title;
    for (const std::string& law : laws) {
        Scenario with_law = scenario;
        std::get<BuiltinLimiter>(with_law.limiter).settings.learning_law =
            learning_law_of(law).value();
        comparison.series.push_back({law, run_repeat(with_law, plan, go_on)});
        if (comparison.series.back().result.interrupted) {
            break;
        }
    }
    return comparison;
}

}  // namespace sim
