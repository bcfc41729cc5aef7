#include "sim/pages/controller_panel.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

namespace sim {

namespace {

/// Sorts by state, and climbing by its stage.
using Doing = std::pair<int, int>;

Doing doing(const ControllerStep& step) {
    const bool climbing = step.state == firmware::State::climbing;
    return {static_cast<int>(step.state), climbing ? step.stage : 0};
}

std::string word_of(const Doing& doing) {
    const auto state = static_cast<firmware::State>(doing.first);
    return state == firmware::State::climbing ? fmt::format("climbing {}", doing.second + 1)
                                              : std::string(firmware::name_of(state));
}

}  // namespace

Panel controller_panel(const StartResult& result, double duration_s) {
    Panel panel;
    panel.title = "Controller: state, and stage of the ladder";
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
