#include "sim/bench/start_run.hpp"

#include <cmath>
#include <cstdint>

#include "plant_models/numeric/units.hpp"
#include "sim/actuators/power_stage.hpp"
#include "sim/bench/course_recorder.hpp"
#include "sim/bench/verdict.hpp"
#include "sim/controllers/controller_port.hpp"
#include "sim/monitors/monitor_list.hpp"
#include "sim/sensors/sensor_suite.hpp"
#include "sim/timeline/arithmetic_watch.hpp"

namespace sim {

namespace {

std::int64_t to_ticks(double time_s) {
    // A time that is a whole number of ticks up to rounding is that number.
    return static_cast<std::int64_t>(std::ceil(time_s * firmware::ticks_per_second - 1e-6));
}

PowerCommands direct_start(bool call_for_cooling) {
    PowerCommands commands;
    commands.line_coil = call_for_cooling;
    return commands;
}

}  // namespace

PlantDescription describe_plant(const Scenario& scenario) {
    PlantDescription plant;
    plant.motor = scenario.motor;
    plant.load = scenario.load;
    plant.supply = scenario.source;
    plant.wiring = plant_models::series_impedance(scenario.wiring);
    plant.unit = scenario.unit;
    plant.refrigerant = scenario.refrigerant;
    plant.conditions = scenario.conditions;
    if (const auto* limiter = std::get_if<BuiltinLimiter>(&scenario.limiter)) {
        plant.limiter = limiter->parts;
        plant.connection = Connection::through_limiter;
    }
    plant.initial_speed_rad_per_s = plant_models::rpm_to_rad_per_s(scenario.run.initial_speed_rpm);
    return plant;
}

Scenario without_limiter(const Scenario& scenario) {
    Scenario direct = scenario;
    direct.limiter = NoLimiter{};
    return direct;
}

StartResult run_start(const Scenario& scenario, TickObserver* observer) {
    const double frequency_Hz = plant_models::nominal_frequency_Hz(scenario.source);
    const double synchronous = scenario.motor.synchronous_speed_rad_per_s(frequency_Hz);
    const std::unique_ptr<PlantRun> plant = make_plant_run(describe_plant(scenario));
    const std::unique_ptr<ControllerPort> controller = make_controller(scenario.limiter);
    const bool has_limiter = controller != nullptr;
    const std::int64_t ticks = to_ticks(scenario.run.duration_s);
    const std::int64_t call_on = to_ticks(scenario.run.call_on_s);
    const std::int64_t call_off =
        scenario.run.call_off_s > 0.0 ? to_ticks(scenario.run.call_off_s) : ticks + 1;

    StartMetrics metrics(synchronous, frequency_Hz, has_limiter);
    Monitors monitors(
        {scenario.limits, synchronous, frequency_Hz, scenario.motor.rated_voltage_V, has_limiter});
    CourseRecorder course(scenario.run.duration_s);

    ArithmeticWatch arithmetic;
    PowerCommands commands;
    firmware::ActuatorFrame answer;  // to the tick before; all outputs off at first
    bool call = false;
    for (std::int64_t tick = 0;; ++tick) {
        const plant_models::PlantOutputs& outputs = plant->outputs();
        call = tick >= call_on && tick < call_off;
        firmware::SensorFrame samples;
        TickView view{tick * tick_length, outputs, commands, call};
        if (has_limiter) {
            samples = sample_sensors(outputs, call);
            view.samples = &samples;
            view.controller = &controller->telemetry();
        }
        metrics.observe(view);
        monitors.observe(view, metrics.line_voltage_rms_V());
        course.observe(view);
        if (observer != nullptr) {
            observer->observe(view);
        }
        if (tick == ticks) {
            break;
        }
        commands = has_limiter ? drive(answer, call) : direct_start(call);
        plant->apply(commands);
        if (has_limiter) {
            answer = controller->step(samples);
        }
        plant->advance_to((tick + 1) * tick_length);
    }

    arithmetic.check();

    StartResult result;
    result.scenario = scenario.name;
    result.title = scenario.title;
    result.has_limiter = has_limiter;
    result.synchronous_speed_rpm = plant_models::rad_per_s_to_rpm(synchronous);
    result.supply_voltage_V = plant_models::nominal_voltage_V(scenario.source);
    result.warnings = scenario.warnings;
    result.figures = metrics.figures();
    result.energy = plant->energy();
    result.monitors = monitors.broken();
    result.controller_steps = course.controller_steps();
    result.course = course.course();
    const Verdict verdict = judge(
        {plant->outputs(), call, synchronous, result.figures.highest_speed_rpm,
         has_limiter ? &controller->telemetry() : nullptr, result.figures.backwards_at_end_s});
    result.outcome = verdict.outcome;
    result.cause = verdict.cause;
    result.expected = scenario.expect.outcome;
    // A direct start has no controller to blame for a broken monitor.
    result.as_expected =
        result.outcome == scenario.expect.outcome && (result.monitors.empty() || !has_limiter);
    return result;
}

}  // namespace sim
