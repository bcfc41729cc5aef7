#include <fmt/format.h>

#include <cmath>
#include <vector>

#include "sim/bench/motor_curves.hpp"
#include "sim/lessons/lesson.hpp"
#include "sim/lessons/spelled_numbers.hpp"

namespace sim {

namespace {

/// As printed on it; see the scenario.
constexpr double printed_uF = 35.0;

/// The plot of the weak one, with the curve of the good one beside its own.
Plot torque_of_both(const RecordedStart& weak, const RecordedStart& good) {
    Plot plot = torque_speed_plot(weak);
    std::vector<Series>& series = plot.panels.front().series;
    series.front().name += ", weak";
    Series better = torque_speed_plot(good).panels.front().series.front();
    better.name += ", good";
    better.colour = Colour::green;
    better.dash = Dash::dashed;
    series.insert(series.begin() + 1, better);
    return plot;
}

}  // namespace

LessonContent weak_capacitor_lesson() {
    LessonContent content;
    content.scenario = "farm_weak_capacitor";
    const Scenario weak_scenario = bundled_scenario("farm_weak_capacitor");
    const RecordedStart weak = run_for_lesson(weak_scenario, content);
    Scenario good_scenario = weak_scenario;
    good_scenario.motor.run_capacitor_uF = printed_uF;
    good_scenario.expect.outcome = Outcome::running;
    const RecordedStart good = run_for_lesson(good_scenario, content);
    const auto weak_motor = motor_curves(weak_scenario, {}).locked_rotor;
    const auto good_motor = motor_curves(good_scenario, {}).locked_rotor;

    content.situation = fmt::format(
        "A farm's milk cooler hums and does not turn. It has rested, so it is not the pressures. "
        "The clamp shows {} over 100 ms; when the cooler was new and started well, it showed {}.",
        amperes(weak.result.figures.line_current_inrush_100ms_rms_A),
        amperes(good.result.figures.line_current_inrush_100ms_rms_A));
    content.question =
        "The line current is almost the same. What can be missing, and which measurement tells it "
        "from a compressor that is merely stuck?";
    content.answer = {
        Paragraph{fmt::format(
            "The run capacitor has {:g} of its {:g} µF left. With the rotor standing the motor "
            "then "
            "draws {} instead of {} at its rated voltage, which nobody would notice, but it makes "
            "{} instead of {}. The main winding draws nearly all of the current and, alone, makes "
            "no torque at all on a standing rotor: torque needs the current of the auxiliary "
            "winding, and that has fallen from {} to {}.",
            weak_scenario.motor.run_capacitor_uF, printed_uF,
            amperes(std::abs(weak_motor.line_current_A)),
            amperes(std::abs(good_motor.line_current_A)), newton_metres(weak_motor.torque_Nm),
            newton_metres(good_motor.torque_Nm), amperes(std::abs(good_motor.aux_current_A)),
            amperes(std::abs(weak_motor.aux_current_A)))},
        Paragraph{fmt::format(
            "A clamp around the wire to S tells it, or the voltage from S to C of the standing "
            "rotor: {} instead of {}. A rotor that is merely stuck leaves both as they should be.",
            volts(std::abs(weak_motor.s_voltage_V)), volts(std::abs(good_motor.s_voltage_V)))},
        Notice{"Before you touch or measure a capacitor: isolate the unit, prove it dead, and "
               "discharge every capacitor through a resistor. A weak one holds a dangerous charge, "
               "too."},
        comparison_plot({"good capacitor", &good}, {"weak capacitor", &weak}),
        torque_of_both(weak, good),
        waveform_plot(weak, "Waves with the weak capacitor"),
        thinning_words(weak.waves)};
    return content;
}

}  // namespace sim
