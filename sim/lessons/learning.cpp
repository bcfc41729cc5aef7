#include <fmt/format.h>

#include "sim/bench/repeat_run.hpp"
#include "sim/lessons/lesson.hpp"
#include "sim/lessons/spelled_numbers.hpp"
#include "sim/pages/repeat_page.hpp"
#include "sim/results/repeat_words.hpp"

namespace sim {

namespace {

constexpr int starts = 8;
/// The pressures are equal long before.
constexpr double rest_s = 3600.0;

std::string stage_words(const RepeatedStart& row) {
    return row.stage ? fmt::format("stage {}", *row.stage) : std::string("no stage");
}

}  // namespace

LessonContent learning_lesson() {
    LessonContent content;
    content.scenario = "dairy_50hz";
    const Scenario scenario = bundled_scenario("dairy_50hz");
    FirstAndLast waves(starts);
    RepeatPlan plan;
    plan.starts = starts;
    plan.rest_between_s = rest_s;
    const RepeatResult series = run_repeat(
        scenario, plan, [](int) { return true; }, {},
        [&waves](int start_number, const Scenario& now) {
            return waves.watcher(start_number, now);
        });
    if (!series.as_expected()) {
        content.surprises.push_back("The series did not end as this lesson expects: " +
                                    repeat_sentence(series) + " Do not trust the words below.");
    }
    const FirstAndLast::Recorded recorded = waves.finish(series);
    const RepeatedStart& first = series.starts.front();
    const RepeatedStart& last = series.starts.back();

    content.situation =
        "A farm's milk cooler hangs at the end of a long line, behind a limiter. Every hour the "
        "controller starts the same compressor on the same line again, with a ladder of stages "
        "that was set for any compressor.";
    content.question =
        "What could the controller learn from one start for the next? It does not measure the line "
        "current. And why must it not simply take less each time?";
    content.answer = {
        Paragraph{fmt::format(
            "It sees in which stage the rotor came up, and how long that took. The first start "
            "came "
            "up in {}, with {} on a clamp over 100 ms; the last one in {}, with {}. {}",
            stage_words(first), amperes(first.start.figures.line_current_inrush_100ms_rms_A),
            stage_words(last), amperes(last.start.figures.line_current_inrush_100ms_rms_A),
            repeat_sentence(series))},
        Paragraph{
            "It has no line current to go by, but the current through its own output, which "
            "rises and falls with it, the stage in which the rotor came up, and the time that "
            "the climb took. It scales the whole ladder by one number, its level. A first "
            "stage that was of no use is made strong enough; a ladder that was stronger than "
            "this rotor needs is eased; a step that drew no less is taken back halfway. The "
            "level that drew the least stays."},
        Paragraph{
            "Less each time would end in a start that fails: torque goes with the square of "
            "the current, and tomorrow it is colder, the oil thicker or the line weaker. So a "
            "climb that takes long ends the search, and a later start that is too slow raises "
            "the level again."},
        learning_plot(series), starts_table(series)};
    for (const std::string& sentence : repeat_conclusions(series)) {
        content.answer.emplace_back(Paragraph{sentence});
    }
    if (recorded.last) {
        content.answer.emplace_back(
            comparison_plot({"first start", &recorded.first},
                            {fmt::format("start {}", series.starts.size()), &*recorded.last}));
        content.answer.emplace_back(waveform_plot(*recorded.last, "Waves of the last start"));
        content.answer.emplace_back(thinning_words(recorded.last->waves));
    }
    return content;
}

}  // namespace sim
