#include "sim/bench/start_bench.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>

#include "plant_models/numeric/units.hpp"
#include "sim/actuators/power_stage.hpp"
#include "sim/bench/plant_of_scenario.hpp"
#include "sim/bench/verdict.hpp"
#include "sim/sensors/sensor_suite.hpp"
#include "sim/timeline/arithmetic_watch.hpp"

namespace sim {

namespace {

/// An erase of 30 ms and a record, with room to spare.
constexpr std::int64_t ticks_to_store = firmware::ticks_per_second / 10;

constexpr double tick_s = 1.0 / firmware::ticks_per_second;

PowerCommands direct_start(bool call_for_cooling) {
    PowerCommands commands;
    commands.line_coil = call_for_cooling;
    return commands;
}

}  // namespace

StartBench::StartBench(const Scenario& scenario)
    : StartBench(scenario, make_plant_run(describe_plant(scenario))) {}

StartBench::StartBench(const Scenario& scenario, std::unique_ptr<PlantRun> plant)
    : scenario_(scenario),
      plant_(std::move(plant)),
      controller_(make_controller(scenario.limiter, scenario.motor)),
      faults_(scenario_.faults, plant_models::nominal_frequency_Hz(scenario.source)),
      winding_heat_(winding_heat(scenario)),
      series_monitors_(MonitorContext{}) {
    take_figures_of_motor();
    series_monitors_ = SeriesMonitors(monitor_context());
    // What a sensor would read that is stuck from the very beginning.
    samples_ = sample_sensors(plant_->outputs(), false);
}

std::unique_ptr<StartBench> StartBench::copy_with_new_controller(const Scenario& scenario) const {
    std::unique_ptr<StartBench> copy(new StartBench(scenario, plant_->copy()));
    copy->tick_ = tick_;
    copy->winding_heat_ = winding_heat_;
    return copy;
}

void StartBench::take_figures_of_motor() {
    frequency_Hz_ = plant_models::nominal_frequency_Hz(scenario_.source);
    synchronous_rad_per_s_ = scenario_.motor.synchronous_speed_rad_per_s(frequency_Hz_);
}

MonitorContext StartBench::monitor_context() const {
    return {scenario_.limits, synchronous_rad_per_s_, frequency_Hz_,
            scenario_.motor.rated_voltage_V, controller_ != nullptr};
}

void StartBench::begin_start() {
    start_tick_ = tick_;
    looked_at_ = -1;
    metrics_.emplace(synchronous_rad_per_s_, frequency_Hz_, controller_ != nullptr);
    monitors_.emplace(monitor_context());
    series_monitors_.forget_violations();
    hottest_winding_C_ = winding_heat_.hottest_C();
    if (tick_ > 0) {
        plant_->restart_audit();
        drop_outs_before_ = plant_->outputs().contactor_drop_outs;
    }
}

const plant_models::PlantOutputs& StartBench::in_this_start(
    const plant_models::PlantOutputs& outputs) {
    if (start_tick_ == 0) {
        return outputs;
    }
    shifted_ = outputs;
    shifted_.time_s = plant_models::to_seconds((tick_ - start_tick_) * tick_length);
    shifted_.contactor_drop_outs -= drop_outs_before_;
    return shifted_;
}

/// Point 2 of the step order: everybody sees the same values.
void StartBench::look(bool call, TickObserver* observer) {
    const plant_models::PlantOutputs& truth = plant_->outputs();
    TickView view{(tick_ - start_tick_) * tick_length, in_this_start(truth), commands_, call};
    if (controller_ != nullptr) {
        samples_ = faults_.effects().through_sensors(sample_sensors(truth, call), samples_);
        view.samples = &samples_;
        view.controller = &controller_->telemetry();
        view.tells_only_states = controller_->tells_only_states();
        view.seen = seen_of_controller();
        view.store = &controller_->store();
        view.answer = &answer_;
        view.port = controller_.get();
    }
    // The last instant of a start is also the first of what follows.
    if (looked_at_ == tick_) {
        return;
    }
    looked_at_ = tick_;
    winding_heat_.observe(truth);
    view.hottest_winding_C = winding_heat_.hottest_C();
    hottest_winding_C_ = std::max(hottest_winding_C_, view.hottest_winding_C);
    metrics_->observe(view);
    monitors_->observe(view, metrics_->line_voltage_rms_V());
    if (course_ != nullptr) {
        course_->observe(view);
    }
    if (observer != nullptr) {
        observer->observe(view);
    }
    const TickView in_series{now(), truth, commands_, call};
    series_monitors_.observe(in_series, metrics_->line_voltage_rms_V());
}

std::optional<SeenDoing> StartBench::seen_of_controller() const {
    return controller_ == nullptr   ? std::nullopt
           : controller_->failure() ? std::optional<SeenDoing>(SeenDoing::failed)
                                    : controller_->seen();
}

void StartBench::carry_out_faults() {
    plant_->set_damage(faults_.effects().damage);
    if (controller_ != nullptr && faults_.effects().controller_unpowered) {
        cut_power(Torn::in_part, 0);
        answer_ = firmware::ActuatorFrame{};
    } else if (controller_ != nullptr) {
        give_power();
    }
}

firmware::ActuatorFrame StartBench::step_controller(const firmware::SensorFrame& samples) {
    const firmware::ActuatorFrame answer = controller_->step(samples);
    if (listener_ != nullptr) {
        listener_->stepped(samples, answer);
    }
    return answer;
}

void StartBench::cut_power(Torn torn, std::uint32_t seed) {
    if (listener_ != nullptr && controller_->has_power()) {
        listener_->power_lost(torn, seed);
    }
    controller_->lose_power(torn, seed);
}

void StartBench::give_power() {
    if (listener_ != nullptr && !controller_->has_power()) {
        listener_->power_came();
    }
    controller_->power_up();
}

/// Points 2 to 5.
void StartBench::tick(bool called, TickObserver* observer) {
    const bool faults_change =
        faults_.move_to(tick_, controller_ != nullptr ? &controller_->telemetry() : nullptr);
    const bool call = call_comes_through(called);
    look(call, observer);
    if (faults_change) {
        carry_out_faults();
    }
    commands_ = controller_ != nullptr ? drive(answer_, call) : direct_start(call);
    plant_->apply(commands_);
    if (controller_ != nullptr) {
        answer_ = step_controller(samples_);
    }
    ++tick_;
    plant_->advance_to(now());
}

StartResult StartBench::run_start(TickObserver* observer) {
    const RunSettings& run = scenario_.run;
    const std::int64_t ticks = to_ticks(run.duration_s);
    const std::int64_t call_on = to_ticks(run.call_on_s);
    const std::int64_t call_off = run.call_off_s > 0.0 ? to_ticks(run.call_off_s) : ticks + 1;
    CourseRecorder course(run.duration_s);
    ArithmeticWatch arithmetic;
    begin_start();
    course_ = &course;
    const auto call_at = [&](std::int64_t k) { return k >= call_on && k < call_off; };
    std::int64_t done = 0;
    while (done < ticks && (observer == nullptr || observer->wants_more())) {
        tick(call_at(done), observer);
        ++done;
    }
    const bool call_at_end = call_comes_through(call_at(done));
    look(call_at_end, observer);
    course_ = nullptr;
    arithmetic.check();

    StartResult result;
    result.scenario = scenario_.name;
    result.title = scenario_.title;
    result.has_limiter = controller_ != nullptr;
    result.synchronous_speed_rpm = plant_models::rad_per_s_to_rpm(synchronous_rad_per_s_);
    result.supply_voltage_V = plant_models::nominal_voltage_V(scenario_.source);
    result.warnings = scenario_.warnings;
    if (controller_ != nullptr && controller_->failure()) {
        result.warnings.push_back(controller_->failure()->words);
    }
    if (controller_ != nullptr && !controller_->remark().empty()) {
        result.warnings.push_back(controller_->remark());
    }
    result.figures = metrics_->figures();
    result.hottest_winding_C = hottest_winding_C_;
    result.energy = plant_->energy();
    result.monitors = broken();
    result.controller_steps = course.controller_steps();
    result.course = course.course();
    const Verdict verdict = judge(
        {in_this_start(plant_->outputs()), call_at_end, synchronous_rad_per_s_,
         result.figures.highest_speed_rpm,
         controller_ != nullptr ? &controller_->telemetry() : nullptr,
         result.figures.backwards_at_end_s, controller_ == nullptr || controller_->has_power(),
         controller_ != nullptr && controller_->failure() ? controller_->failure()->cause
                                                          : std::string(),
         seen_of_controller()});
    result.outcome = verdict.outcome;
    result.cause = verdict.cause;
    result.expected = scenario_.expect.outcome;
    // A direct start has no controller to blame for a broken monitor.
    result.as_expected = result.outcome == scenario_.expect.outcome &&
                         (result.monitors.empty() || !result.has_limiter);
    return result;
}

std::vector<NamedViolation> StartBench::broken() const {
    std::vector<NamedViolation> all = monitors_->broken();
    const double start_s = plant_models::to_seconds(start_tick_ * tick_length);
    for (NamedViolation& of_series : series_monitors_.broken()) {
        const bool known =
            std::any_of(all.begin(), all.end(), [&](const NamedViolation& violation) {
                return violation.monitor == of_series.monitor;
            });
        if (!known) {
            of_series.violation.time_s -= start_s;
            all.push_back(of_series);
        }
    }
    return all;
}

void StartBench::take_power_away() {
    if (controller_ != nullptr) {
        cut_power(Torn::in_part, rest_plan_.torn_seed);
        // The frame that waits for its tick has no pins to drive.
        answer_ = firmware::ActuatorFrame{};
    }
}

bool StartBench::at_rest() const {
    const bool controller_is_off =
        controller_ == nullptr ||
        (!firmware::feeds_motor(controller_->telemetry().state) && controller_->store_is_quiet());
    return controller_is_off && plant_->at_rest();
}

void StartBench::coast(const RestPlan& plan) {
    rest_plan_ = plan;
    rest_begin_ = tick_;
    rest_end_ = tick_ + to_ticks(plan.duration_s);
    power_off_at_ = plan.power_off_after_s
                        ? std::min(tick_ + to_ticks(*plan.power_off_after_s), rest_end_)
                        : rest_end_;
    ArithmeticWatch arithmetic;
    while (tick_ < rest_end_ && !(tick_ > rest_begin_ && at_rest())) {
        if (tick_ == power_off_at_) {
            take_power_away();
        }
        tick(false, nullptr);
    }
    coasting_end_ = tick_;
    arithmetic.check();
}

/// A controller that is to lose its power wakes up before, to store what the rest has changed: that
/// it is over. One that keeps it does so at the beginning of the next start.
void StartBench::rest_controller(std::int64_t ticks) {
    const std::int64_t at_the_end =
        rest_plan_.power_off_after_s ? std::min(ticks, ticks_to_store) : 0;
    if (ticks > at_the_end) {
        const firmware::Ticks asleep{static_cast<std::uint32_t>(ticks - at_the_end)};
        controller_->rest(asleep);
        if (listener_ != nullptr) {
            listener_->rested(asleep);
        }
    }
    firmware::SensorFrame without_call = samples_;
    without_call.call_for_cooling = 0;
    for (std::int64_t k = 0; k < at_the_end; ++k) {
        step_controller(without_call);
    }
}

void StartBench::continue_with(const Scenario& scenario, const KeptParts& kept) {
    PlantDescription description = describe_plant(scenario);
    description.initial_speed_rad_per_s = 0.0;
    std::unique_ptr<PlantRun> next = make_plant_run(description);
    next->continue_from(*plant_, kept);
    plant_ = std::move(next);
    scenario_ = scenario;
    take_figures_of_motor();
    // The new plant is whole: what is broken is so again.
    plant_->set_damage(faults_.effects().damage);
    if (!kept.unit) {
        winding_heat_ = winding_heat(scenario_);
        // Another motor has not been fed yet.
        series_monitors_ = SeriesMonitors(monitor_context());
    }
}

StartBench::Rest StartBench::rest() {
    ArithmeticWatch arithmetic;
    const std::int64_t left = rest_end_ - tick_;
    if (left > 0) {
        plant_->rest(left * tick_length);
        winding_heat_.rest(plant_models::to_seconds(left * tick_length));
        const std::int64_t awake = std::max<std::int64_t>(power_off_at_ - tick_, 0);
        if (controller_ != nullptr && awake > 0) {
            rest_controller(awake);
        }
        answer_ = firmware::ActuatorFrame{};
        commands_ = PowerCommands{};
        tick_ = rest_end_;
    }
    if (rest_plan_.power_off_after_s && controller_ != nullptr) {
        take_power_away();
        give_power();
    }
    arithmetic.check();
    Rest rest;
    rest.coasting_s = static_cast<double>(coasting_end_ - rest_begin_) * tick_s;
    rest.resting_s = static_cast<double>(left) * tick_s;
    rest.monitors = broken();
    return rest;
}

FlashStore::Wear StartBench::store_wear() const {
    return controller_ != nullptr ? controller_->store().wear() : FlashStore::Wear{};
}

}  // namespace sim
