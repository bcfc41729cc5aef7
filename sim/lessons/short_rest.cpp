#include <fmt/format.h>

#include <string_view>

#include "sim/bench/plant_of_scenario.hpp"
#include "sim/lessons/lesson.hpp"
#include "sim/lessons/spelled_numbers.hpp"

namespace sim {

namespace {

constexpr double long_rest_s = 300.0;

struct Pressures {
    double suction_kPa = 0.0;
    double discharge_kPa = 0.0;
};

/// As the start begins.
Pressures pressures(const Scenario& scenario) {
    const auto plant = make_plant_run(describe_plant(scenario));
    const plant_models::PlantOutputs& outputs = plant->outputs();
    Pressures found;
    for (std::size_t k = 0; k < plant->channel_names().size(); ++k) {
        const std::string_view name = plant->channel_names()[k];
        if (name == "suction_pressure_kPa") {
            found.suction_kPa = outputs.model_channels.at(k);
        } else if (name == "discharge_pressure_kPa") {
            found.discharge_kPa = outputs.model_channels.at(k);
        }
    }
    return found;
}

std::string bar(double kPa) {
    return fmt::format("{:.1f} bar", 1e-2 * kPa);
}

}  // namespace

LessonContent short_rest_lesson() {
    LessonContent content;
    content.scenario = "bakery_short_rest";
    const Scenario scenario = bundled_scenario("bakery_short_rest");
    const RecordedStart after_short = run_for_lesson(scenario, content);
    Scenario rested = scenario;
    rested.conditions.rest_s = long_rest_s;
    rested.expect.outcome = Outcome::running;
    const RecordedStart after_long = run_for_lesson(rested, content);
    const Pressures soon = pressures(scenario);
    const Pressures later = pressures(rested);

    content.situation = fmt::format(
        "Somebody switches a bakery's cold room off and, {:g} s later, on again. The compressor "
        "hums and does not turn. After {:g} s of rest the same compressor, on the same mains and "
        "through the same contactor, starts at once.",
        scenario.conditions.rest_s, long_rest_s);
    content.question =
        "What has changed in these minutes? And what does a clamp meter show in the two cases?";
    content.answer = {
        Paragraph{fmt::format(
            "The pressures. After {:g} s there are {} on the suction side and {} on the discharge "
            "side, and the rotor would have to push a piston up against the difference from "
            "standstill. After {:g} s there are {} and {}: the expansion device has let them "
            "become equal, and only friction is left.",
            scenario.conditions.rest_s, bar(soon.suction_kPa), bar(soon.discharge_kPa), long_rest_s,
            bar(later.suction_kPa), bar(later.discharge_kPa))},
        Paragraph{fmt::format(
            "The clamp meter shows no difference at first: {} over 100 ms when it fails, {} when "
            "it succeeds, because a standing rotor draws the same current whatever holds it. What "
            "differs is for how long: it comes up in {}, or draws it until something lets go.",
            amperes(after_short.result.figures.line_current_inrush_100ms_rms_A),
            amperes(after_long.result.figures.line_current_inrush_100ms_rms_A),
            seconds(after_long.result.figures.time_to_speed_s))},
        Paragraph{"Not every short rest fails, and not every compressor minds one: a valve that "
                  "shuts tight keeps the pressures apart for much longer, a scroll unloads itself. "
                  "A rest of some minutes costs nothing and is common practice."},
        comparison_plot({"after the long rest", &after_long},
                        {"after the short rest", &after_short}),
        waveform_plot(after_short, "Waves after the short rest"),
        thinning_words(after_short.waves)};
    return content;
}

}  // namespace sim
