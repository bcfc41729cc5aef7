#include <fmt/format.h>

#include <cmath>
#include <variant>

#include "sim/bench/motor_curves.hpp"
#include "sim/lessons/lesson.hpp"
#include "sim/lessons/spelled_numbers.hpp"
#include "sim/results/start_words.hpp"

namespace sim {

namespace {

/// The rotor stands, and the inverter limits and has not given up yet.
constexpr double settled_at_s = 1.0;

}  // namespace

LessonContent small_inverter_lesson() {
    LessonContent content;
    content.scenario = "hut_inverter";
    const Scenario scenario = bundled_scenario("hut_inverter");
    const RecordedStart limited = run_for_lesson(scenario, content);
    const RecordedStart direct = run_for_lesson(bundled_scenario("hut_inverter_direct"), content);

    const auto& inverter = std::get<plant_models::InverterParameters>(scenario.source);
    const auto& load = std::get<plant_models::PolynomialLoadParameters>(scenario.load);
    const MotorCurves motor = motor_curves(scenario, {});
    const double locked_A = std::abs(motor.locked_rotor.line_current_A);
    const double held_V = value_at(direct.waves.line_voltage_rms_V, settled_at_s);
    const double share = held_V / motor.voltage_V;
    const double running_A = value_at(limited.waves.line_current_rms_A, scenario.run.duration_s);

    content.situation = fmt::format(
        "A mountain hut keeps its food in a cold room and lives on batteries. Once it runs, the "
        "compressor draws {}. The inverter cuts off every current above a crest of {:g} A. "
        "Switched "
        "straight onto it, the compressor hums and never turns.",
        amperes(running_A), inverter.peak_current_limit_A);
    content.question =
        "The inverter could run this compressor for hours. Why can it not start it? And why does a "
        "limiter help that gives the motor even less voltage?";
    content.answer = {
        Paragraph{fmt::format(
            "With its rotor standing, the motor would draw {} at {:g} V. A sine with a crest of "
            "{:g} A has {} RMS: the inverter cannot hold its voltage up against that, and the line "
            "settles at {}. Torque goes with the square of the voltage. The standing motor makes "
            "{} at full voltage; {} of the voltage leave about {} of that, {}. The compressor "
            "sticks until {}.",
            amperes(locked_A), motor.voltage_V, inverter.peak_current_limit_A,
            amperes(inverter.peak_current_limit_A / std::sqrt(2.0)), volts(held_V),
            newton_metres(motor.locked_rotor.torque_Nm), percent(share), percent(share * share),
            newton_metres(share * share * motor.locked_rotor.torque_Nm),
            newton_metres(load.breakaway_torque_Nm))},
        Paragraph{fmt::format(
            "The limiter lowers the voltage of the main winding only. The auxiliary winding stays "
            "on the whole line, and the start capacitor turns its current to where it makes "
            "torque. {}",
            start_sentence(limited.result))},
        figure_table({&direct.result, &limited.result}),
        comparison_plot({"through the limiter", &limited}, {"direct start", &direct}),
        torque_speed_plot(limited),
        waveform_plot(limited, "Waves of the limited start"),
        thinning_words(limited.waves)};
    return content;
}

}  // namespace sim
