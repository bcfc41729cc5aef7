#include "sim/bench/repeat_run.hpp"

#include <algorithm>
#include <utility>

#include "firmware/contract/sensor_scale.hpp"
#include "plant_models/numeric/instant.hpp"
#include "sim/bench/start_bench.hpp"
#include "sim/metrics/inrush_window.hpp"

namespace sim {

namespace {

constexpr double settled_share = 0.05;

/// What an inrush clamp would read if it saw the controller's samples.
class OwnSensor final : public TickObserver {
  public:
    void observe(const TickView& view) override {
        if (view.samples != nullptr) {
            const int counts = view.samples->output_current_counts - firmware::adc_midpoint;
            window_.add(1e-3 * counts * firmware::output_current_mA_per_count);
        }
    }
    std::optional<double> largest_rms_A() const { return window_.largest_rms_A(); }

  private:
    InrushWindow window_{plant_models::to_seconds(tick_length)};
};

std::optional<int> stage_that_came_up(const StartResult& start) {
    for (const ControllerStep& step : start.controller_steps) {
        if (step.state == firmware::State::running) {
            return step.stage + 1;
        }
    }
    return std::nullopt;
}

}  // namespace

bool RepeatResult::as_expected() const {
    return !interrupted && std::all_of(starts.begin(), starts.end(), [](const RepeatedStart& row) {
        return row.start.as_expected;
    });
}

std::optional<int> settled_after(const RepeatResult& result) {
    const std::vector<RepeatedStart>& starts = result.starts;
    double lowest_A = 0.0;
    double highest_A = 0.0;
    auto first = starts.end();
    while (first != starts.begin()) {
        const auto& current_A = std::prev(first)->start.figures.line_current_inrush_100ms_rms_A;
        if (!current_A) {
            break;
        }
        lowest_A = first == starts.end() ? *current_A : std::min(lowest_A, *current_A);
        highest_A = std::max(highest_A, *current_A);
        if (highest_A - lowest_A >= settled_share * highest_A) {
            break;
        }
        --first;
    }
    if (starts.end() - first < fewest_to_settle) {
        return std::nullopt;
    }
    return static_cast<int>(first - starts.begin()) + 1;
}

RepeatResult run_repeat(const Scenario& scenario, const RepeatPlan& plan, const GoOn& go_on) {
    RepeatResult result;
    result.scenario = scenario.name;
    result.title = scenario.title;
    result.plan = plan;
    result.warnings = scenario.warnings;
    StartBench bench(scenario);
    for (int k = 0; k < plan.starts; ++k) {
        if (k > 0) {
            if (!go_on(k)) {
                result.interrupted = true;
                break;
            }
            RepeatedStart& last = result.starts.back();
            const StartBench::Rest rest = bench.rest(plan.rest_between_s);
            last.coasting_s = rest.coasting_s;
            last.start.monitors = rest.monitors;
            last.start.as_expected =
                last.start.as_expected && (rest.monitors.empty() || !last.start.has_limiter);
        }
        RepeatedStart row;
        row.call_at_s = plant_models::to_seconds(bench.now()) + scenario.run.call_on_s;
        OwnSensor sensor;
        row.start = bench.run_start(&sensor);
        row.start.course = {};
        row.stage = stage_that_came_up(row.start);
        row.sensor_inrush_100ms_rms_A = sensor.largest_rms_A();
        result.has_limiter = row.start.has_limiter;
        result.starts.push_back(std::move(row));
    }
    return result;
}

}  // namespace sim
