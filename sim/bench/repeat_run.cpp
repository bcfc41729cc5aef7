#include "sim/bench/repeat_run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "firmware/contract/sensor_scale.hpp"
#include "firmware/learning/learned.hpp"
#include "plant_models/numeric/instant.hpp"
#include "sim/bench/changing_scenario.hpp"
#include "sim/bench/start_bench.hpp"
#include "sim/metrics/inrush_window.hpp"

namespace sim {

namespace {

constexpr double settled_share = 0.05;

/// What the controller says as the start begins, and what an inrush clamp would read if it saw the
/// controller's samples.
class ControllersView final : public TickObserver {
  public:
    /// `next` sees every tick, too; may be null.
    explicit ControllersView(TickObserver* next) : next_(next) {}

    void observe(const TickView& view) override {
        if (next_ != nullptr) {
            next_->observe(view);
        }
        if (view.controller != nullptr && !view.tells_only_states && !memory_) {
            memory_ = RepeatedStart::Memory{view.controller->memory,
                                            view.controller->learned_level_permille,
                                            view.controller->learning_settled != 0};
        }
        if (view.samples != nullptr) {
            const int counts = view.samples->output_current_counts - firmware::adc_midpoint;
            window_.add(1e-3 * counts * firmware::output_current_mA_per_count);
        }
    }
    std::optional<double> largest_rms_A() const { return window_.largest_rms_A(); }
    const std::optional<RepeatedStart::Memory>& memory() const { return memory_; }

  private:
    TickObserver* next_;
    std::optional<RepeatedStart::Memory> memory_;
    InrushWindow window_{plant_models::to_seconds(tick_length)};
};

std::optional<int> stage_that_came_up(const StartResult& start) {
    for (const ControllerStep& step : start.controller_steps) {
        if (step.state == firmware::State::running && step.has_stage) {
            return step.stage + 1;
        }
    }
    return std::nullopt;
}

/// From the end of start `next` - 1 to its beginning.
void rest_before(int next, const Scenario& scenario, const RepeatPlan& plan,
                 ChangingScenario& world, StartBench& bench, RepeatedStart& last) {
    const bool is_different = world.enter(next);
    StartBench::RestPlan rest_plan;
    rest_plan.duration_s = world.rest_s();
    if (plan.power_cuts) {
        rest_plan.power_off_after_s = scenario.run.power_off_after_s;
        rest_plan.torn_seed = static_cast<std::uint32_t>(scenario.run.seed + next);
    }
    bench.coast(rest_plan);
    if (is_different) {
        if (!bench.at_rest()) {
            world.refuse_latest(fmt::format(
                "the rest of {:g} s ends before the rotor stands, and nothing can change under it; "
                "give a longer rest_between_s",
                world.rest_s()));
        }
        bench.continue_with(world.now(), world.kept());
    }
    const StartBench::Rest rest = bench.rest();
    last.coasting_s = rest.coasting_s;
    last.start.monitors = rest.monitors;
    last.start.as_expected =
        last.start.as_expected && (rest.monitors.empty() || !last.start.has_limiter);
}

/// Number of the start from which on a value stays within the settled share.
template <class Value>
std::optional<int> settled_from(const RepeatResult& result, Value value_of) {
    const std::vector<RepeatedStart>& starts = result.starts;
    double lowest = 0.0;
    double highest = 0.0;
    auto first = starts.end();
    while (first != starts.begin()) {
        const std::optional<double> value = value_of(*std::prev(first));
        if (!value) {
            break;
        }
        lowest = first == starts.end() ? *value : std::min(lowest, *value);
        highest = std::max(highest, *value);
        if (highest - lowest >= settled_share * highest) {
            break;
        }
        --first;
    }
    if (starts.end() - first < fewest_to_settle) {
        return std::nullopt;
    }
    return static_cast<int>(first - starts.begin()) + 1;
}

}  // namespace

bool RepeatResult::as_expected() const {
    return !interrupted && std::all_of(starts.begin(), starts.end(), [](const RepeatedStart& row) {
        return row.start.as_expected;
    });
}

bool has_learned(const RepeatResult& result) {
    return std::any_of(result.starts.begin(), result.starts.end(), [](const RepeatedStart& row) {
        return row.memory && (row.memory->settled ||
                              row.memory->learned_level_permille != firmware::level_as_set.count());
    });
}

std::optional<int> current_settled_after(const RepeatResult& result) {
    return settled_from(result, [](const RepeatedStart& row) {
        return row.start.figures.line_current_inrush_100ms_rms_A;
    });
}

std::optional<int> ladder_settled_after(const RepeatResult& result) {
    return has_learned(result)
               ? settled_from(result,
                              [](const RepeatedStart& row) {
                                  return row.memory ? std::optional<double>(
                                                          row.memory->learned_level_permille)
                                                    : std::nullopt;
                              })
               : std::nullopt;
}

std::optional<int> settled_after(const RepeatResult& result) {
    return has_learned(result) ? ladder_settled_after(result) : current_settled_after(result);
}

double per_10000_starts(std::int64_t count, const RepeatResult& result) {
    return result.starts.empty()
               ? 0.0
               : 1e4 * static_cast<double>(count) / static_cast<double>(result.starts.size());
}

double endurance_share(const RepeatResult& result) {
    return per_10000_starts(result.store_wear.erases_of_a_page, result) / usual_page_endurance;
}

RepeatResult run_repeat(const Scenario& scenario, const RepeatPlan& plan, const GoOn& go_on,
                        const Afterwards& afterwards, const Watchers& watchers,
                        PortListener* listener) {
    RepeatResult result;
    result.scenario = scenario.name;
    result.title = scenario.title;
    result.plan = plan;
    result.warnings = scenario.warnings;
    ChangingScenario world(scenario, plan.rest_between_s, plan.starts);
    StartBench bench(scenario);
    if (listener != nullptr) {
        bench.tell(*listener);
    }
    for (int k = 0; k < plan.starts; ++k) {
        if (k > 0) {
            if (!go_on(k)) {
                result.interrupted = true;
                break;
            }
            rest_before(k + 1, scenario, plan, world, bench, result.starts.back());
        }
        RepeatedStart row;
        row.call_at_s = plant_models::to_seconds(bench.now()) + scenario.run.call_on_s;
        row.changed = world.words();
        ControllersView seen(watchers ? watchers(k + 1, world.now()) : nullptr);
        row.start = bench.run_start(&seen);
        row.start.course = {};
        row.stage = stage_that_came_up(row.start);
        row.sensor_inrush_100ms_rms_A = seen.largest_rms_A();
        row.memory = seen.memory();
        result.has_limiter = row.start.has_limiter;
        result.starts.push_back(std::move(row));
    }
    const FlashStore::Wear wear = bench.store_wear();
    result.store_wear = {wear.word_writes, wear.erases[0] + wear.erases[1],
                         std::max(wear.erases[0], wear.erases[1])};
    if (afterwards && !result.interrupted) {
        const StartBench::Rest rest = bench.coast_and_rest(world.rest_s());
        result.starts.back().coasting_s = rest.coasting_s;
        result.regret = afterwards(bench, world.now());
    }
    return result;
}

}  // namespace sim
