#include "sim/pages/start_page.hpp"

#include <fmt/format.h>

#include "sim/results/start_words.hpp"

namespace sim {

namespace {

const char* kind_of(const StartResult& result) {
    return result.has_limiter ? "through the limiter" : "direct start";
}

/// Broken monitors of all runs, and what fits together badly.
std::vector<PagePart> notices(const RecordedStart& start,
                              const std::optional<RecordedStart>& direct) {
    std::vector<PagePart> parts;
    for (const std::string& warning : start.result.warnings) {
        parts.push_back(Notice{"Beware: " + warning + "."});
    }
    for (const NamedViolation& broken : start.result.monitors) {
        parts.push_back(Notice{broken_words(broken, start.result.has_limiter) + "."});
    }
    if (direct) {
        for (const NamedViolation& broken : direct->result.monitors) {
            parts.push_back(Notice{broken_words(broken, false) + "."});
        }
    }
    return parts;
}

}  // namespace

RecordedStart run_recorded_start(const Scenario& scenario, TickObserver* also,
                                 PortListener* listener) {
    class Both final : public TickObserver {
      public:
        Both(TickObserver& one, TickObserver* other) : one_(one), other_(other) {}
        void observe(const TickView& view) override {
            one_.observe(view);
            if (other_ != nullptr) {
                other_->observe(view);
            }
        }

      private:
        TickObserver& one_;
        TickObserver* other_;
    };
    WaveformRecorder recorder(scenario);
    Both both(recorder, also);
    StartResult result = run_start(scenario, &both, listener);
    return {scenario, std::move(result), recorder.finish()};
}

Table figure_table(const std::vector<const StartResult*>& results) {
    Table table;
    table.columns = {"figure"};
    for (const StartResult* result : results) {
        table.columns.emplace_back(kind_of(*result));
    }
    for (const StartFigureRow& figure : start_figure_rows()) {
        std::vector<std::string> row = {figure.label};
        for (const StartResult* result : results) {
            row.push_back(figure.cell(*result));
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

Table controller_table(const StartResult& result) {
    Table table;
    table.columns = {"time, s", "what the controller began"};
    for (const ControllerStep& step : result.controller_steps) {
        table.rows.push_back({fmt::format("{:.3f}", step.time_s), step_words(step)});
    }
    return table;
}

Paragraph thinning_words(const Waveforms& waves) {
    return {fmt::format(
        "The waves were computed every 0.1 ms. Of each {:g} ms the smallest and the largest value "
        "are kept, each at its own time: for {:g} s after the call and {:g} s after everything "
        "that happens later ({:g} s in all); elsewhere of each {:g} ms. Half-cycle RMS is drawn at "
        "the middle of its half cycle. The readout is the value of the line as drawn.",
        1e3 * BucketClock::fine_bucket_s, BucketClock::fine_after_call_s,
        BucketClock::fine_after_event_s, BucketClock::most_fine_s, 1e3 * waves.coarse_bucket_s)};
}

Page start_page(const RecordedStart& start, const std::optional<RecordedStart>& direct) {
    Page page;
    page.title = start.result.title;
    page.lead = direct ? start_sentence(direct->result) + " " + start_sentence(start.result)
                       : start_sentence(start.result);
    const std::vector<PagePart> beware = notices(start, direct);
    if (!beware.empty()) {
        page.sections.push_back({"Beware", beware, ""});
    }
    std::vector<const StartResult*> results;
    if (direct) {
        results.push_back(&direct->result);
    }
    results.push_back(&start.result);
    page.sections.push_back({"Key figures", {figure_table(results)}, ""});
    if (direct) {
        page.sections.push_back(
            {"",
             {comparison_plot({"through the limiter", &start}, {"direct start", &*direct})},
             ""});
    }
    page.sections.push_back({"", {waveform_plot(start), thinning_words(start.waves)}, ""});
    page.sections.push_back(
        {"",
         {torque_speed_plot(start),
          Paragraph{"The curves are the steady state at rated voltage and frequency. The rotor's "
                    "path and the load are means over each cycle of this run; torque is the "
                    "motor's, before friction, and the load includes friction."}},
         ""});
    if (start.result.has_limiter) {
        page.sections.push_back({"What the controller did", {controller_table(start.result)}, ""});
    }
    return page;
}

}  // namespace sim
