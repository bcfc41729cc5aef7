#include "sim/pages/controller_panel.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

namespace sim {

namespace {

/// Sorts by state, and climbing by its stage. What is only seen comes behind the states.
using Doing = std::pair<int, int>;
constexpr int first_seen = firmware::state_count;

Doing doing(const ControllerStep& step) {
    if (step.seen) {
        return {first_seen + static_cast<int>(*step.seen), 0};
    }
    const bool climbing = step.state == firmware::State::climbing && step.has_stage;
    return {static_cast<int>(step.state), climbing ? step.stage + 1 : 0};
}

std::string word_of(const Doing& doing) {
    if (doing.first >= first_seen) {
        return name_of(static_cast<SeenDoing>(doing.first - first_seen));
    }
    const auto state = static_cast<firmware::State>(doing.first);
    return doing.second > 0 ? fmt::format("climbing {}", doing.second)
                            : std::string(firmware::name_of(state));
}

}  // namespace

Panel controller_panel(const StartResult& result, double duration_s) {
    Panel panel;
    const std::vector<ControllerStep>& steps = result.controller_steps;
    const bool is_seen = !steps.empty() && steps.front().seen.has_value();
    panel.title = is_seen ? "Controller: what it is seen to do"
                          : "Controller: state, and stage of the ladder";
    std::set<Doing> occurred;
    for (const ControllerStep& step : result.controller_steps) {
        occurred.insert(doing(step));
    }
    for (const Doing& one : occurred) {
        panel.words.push_back({static_cast<double>(panel.words.size()), word_of(one)});
    }
    Series series;
    series.name = "state";
    series.drawn = Drawn::steps;
    series.width_px = 2.0;
    for (const ControllerStep& step : result.controller_steps) {
        series.x.push_back(step.time_s);
        series.y.push_back(
            static_cast<double>(std::distance(occurred.begin(), occurred.find(doing(step)))));
    }
    if (!series.x.empty()) {
        series.x.push_back(duration_s);
        series.y.push_back(series.y.back());
    }
    panel.series.push_back(std::move(series));
    constexpr int line_px = 34;
    panel.height_px = 40 + line_px * static_cast<int>(panel.words.size());
    return panel;
}

}  // namespace sim
