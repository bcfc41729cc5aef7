#include <fmt/format.h>

#include <algorithm>
#include <variant>

#include "sim/lessons/lesson.hpp"
#include "sim/lessons/spelled_numbers.hpp"

namespace sim {

namespace {

constexpr double long_cut_s = 1.0;

}  // namespace

LessonContent reverse_scroll_lesson() {
    LessonContent content;
    content.scenario = "clinic_power_cut";
    const Scenario scenario = bundled_scenario("clinic_power_cut");
    const RecordedStart short_cut = run_for_lesson(scenario, content);
    Scenario longer = scenario;
    std::get<plant_models::GridParameters>(longer.source).sag_length_s = long_cut_s;
    longer.expect.outcome = Outcome::running;
    const RecordedStart long_cut = run_for_lesson(longer, content);

    const auto& grid = std::get<plant_models::GridParameters>(scenario.source);
    const double before_s = grid.sag_begin_s - 0.01;
    const double end_s = scenario.run.duration_s;
    const Trace& speed = short_cut.waves.speed_rpm;
    const Trace& current = short_cut.waves.line_current_rms_A;

    content.situation = fmt::format(
        "A clinic's cooling runs on a scroll compressor with a single-phase motor. The mains are "
        "gone for {:g} s and come back. Since then the compressor is loud, and it does not cool.",
        grid.sag_length_s);
    content.question =
        "The motor is healthy, the mains are back, the rotor turns. What has happened? Would a "
        "longer cut have been worse?";
    content.answer = {
        Paragraph{fmt::format(
            "It runs backwards. Before the cut the rotor turned at {:.0f} r/min; at the end of the "
            "run it turns at {:.0f} r/min. While the line was dead, the gas that was left in the "
            "scroll drove it back, as an expander does, and when the contactor came back the rotor "
            "already turned the other way. A single-phase motor pulls whichever way it turns.",
            value_at(speed, before_s), short_cut.result.figures.final_speed_rpm)},
        Paragraph{fmt::format(
            "The line shows it: {} before the cut, {} after it, for a scroll that runs backwards "
            "pumps nothing. Low current, noise and no difference of pressures together are the "
            "sign.",
            amperes(value_at(current, before_s)), amperes(value_at(current, end_s)))},
        Paragraph{fmt::format(
            "A longer cut is kinder. After {:g} s the gas has settled and the rotor has come down "
            "to "
            "{:.0f} r/min; the same unit starts forwards, and turns at {:.0f} r/min at the end. "
            "That is why a controller that has "
            "lost the line waits before it feeds the motor again. To get a scroll out of it, "
            "switch it off, wait, and switch it on again.",
            long_cut_s, value_at(long_cut.waves.speed_rpm, grid.sag_begin_s + long_cut_s),
            long_cut.result.figures.final_speed_rpm)},
        comparison_plot({fmt::format("cut of {:g} s", grid.sag_length_s), &short_cut},
                        {fmt::format("cut of {:g} s", long_cut_s), &long_cut}),
        waveform_plot(short_cut, "Waves of the short cut"),
        thinning_words(short_cut.waves)};
    return content;
}

}  // namespace sim
