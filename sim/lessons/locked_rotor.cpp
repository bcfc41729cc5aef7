#include <fmt/format.h>

#include "sim/lessons/lesson.hpp"
#include "sim/lessons/spelled_numbers.hpp"
#include "sim/results/start_words.hpp"

namespace sim {

namespace {

/// Above what an idle line shows, below what any standing motor draws.
constexpr double is_fed_A = 1.0;

std::string feeding(const RecordedStart& start) {
    return fmt::format(
        "{} s at up to {} over 100 ms; {:.0f} J heat the windings and the cage, the hottest "
        "winding reaches {:.0f} °C",
        fmt::format("{:.2f}", time_above_s(start.waves.line_current_rms_A, is_fed_A)),
        amperes(start.result.figures.line_current_inrush_100ms_rms_A), start.result.energy.copper_J,
        start.result.hottest_winding_C);
}

}  // namespace

LessonContent locked_rotor_lesson() {
    LessonContent content;
    content.scenario = "creamery_seized_piston";
    const Scenario scenario = bundled_scenario("creamery_seized_piston");
    const RecordedStart limited = run_for_lesson(scenario, content);
    Scenario alone = without_limiter(scenario);
    alone.expect.outcome = Outcome::protector_open;
    const RecordedStart direct = run_for_lesson(alone, content);

    content.situation =
        "A piston of a creamery's cooler has seized. Nothing will turn this rotor. The thermostat "
        "does not know it and calls for cooling.";
    content.question =
        "How long is the motor fed, and what becomes of its windings: with a contactor alone, and "
        "with a limiter in front of it? The controller measures neither speed nor torque. What can "
        "tell it that the rotor stands?";
    const std::string ending = limited.result.controller_steps.empty()
                                   ? std::string("-")
                                   : step_words(limited.result.controller_steps.back());
    content.answer = {
        Paragraph{fmt::format("Straight on the line: {}. Then the protector in the common lead is "
                              "hot enough to open: a bimetal disc, which will close again when it "
                              "has cooled, and everything begins anew.",
                              feeding(direct))},
        Paragraph{fmt::format("Through the limiter: {}. The controller ends in \"{}\".",
                              feeding(limited), ending)},
        Paragraph{
            "What tells it is what does not happen. A rotor that comes up raises the voltage at S "
            "and, near full speed, lets the current fall. Here both stay as they were in every "
            "stage, and after the last one there is nothing left to try: it lets go, rests, and "
            "tries only a few times before it locks out. Compare the winding currents below with "
            "those of a start that succeeds."},
        Notice{"A stuck compressor is no reason to try again and again, or to bridge a protector: "
               "isolate the unit, prove it dead, and discharge its capacitors before you look for "
               "the cause."},
        figure_table({&direct.result, &limited.result}),
        comparison_plot({"through the limiter", &limited}, {"direct start", &direct}),
        waveform_plot(limited, "Waves of the limited start"),
        thinning_words(limited.waves),
        controller_table(limited.result)};
    return content;
}

}  // namespace sim
