#include "sim/pages/repeat_page.hpp"

#include <fmt/format.h>

#include <utility>

#include "sim/results/repeat_words.hpp"

namespace sim {

namespace {

std::string number(const std::optional<double>& value, int decimals) {
    return value ? fmt::format("{:.{}f}", *value, decimals) : "-";
}

std::string level_words(const std::optional<RepeatedStart::Memory>& memory) {
    return memory ? fmt::format("{:.1f}{}", 0.1 * memory->learned_level_permille,
                                memory->settled ? ", settled" : "")
                  : "-";
}

bool came_up(const RepeatedStart& row) {
    return row.start.outcome == Outcome::running;
}

/// Which starts did not come up, in words; empty if all did.
std::string failed_words(const RepeatResult& result) {
    constexpr int most_named = 20;
    std::string numbers;
    int count = 0;
    int start_number = 0;
    for (const RepeatedStart& row : result.starts) {
        ++start_number;
        if (!came_up(row)) {
            ++count;
            if (count <= most_named) {
                numbers += fmt::format("{}{}", count == 1 ? "" : ", ", start_number);
            }
        }
    }
    if (count == 0) {
        return "";
    }
    return fmt::format("Did not come up: start {}{}.", numbers,
                       count > most_named ? fmt::format(" and {} more", count - most_named) : "");
}

}  // namespace

TickObserver* FirstAndLast::watcher(int start_number, const Scenario& now) {
    if (start_number == 1) {
        return &first_.emplace(Watched{now, WaveformRecorder(now)}).recorder;
    }
    if (start_number == starts_) {
        return &last_.emplace(Watched{now, WaveformRecorder(now)}).recorder;
    }
    return nullptr;
}

FirstAndLast::Recorded FirstAndLast::finish(const RepeatResult& result) {
    Recorded recorded{{first_->scenario, result.starts.front().start, first_->recorder.finish()},
                      std::nullopt};
    if (last_) {
        recorded.last =
            RecordedStart{last_->scenario, result.starts.back().start, last_->recorder.finish()};
    }
    return recorded;
}

Table starts_table(const RepeatResult& result) {
    Table table;
    table.caption = "Own: the current through the controller's output, as its sensor shows it.";
    table.columns = {"start",      "clamp, 100 ms, A",  "own, 100 ms, A",
                     "to 90 %, s", "peak, A",           "lowest line, V",
                     "stage",      "ladder's level, %", "how it ended"};
    int start_number = 0;
    for (const RepeatedStart& row : result.starts) {
        const StartFigures& figures = row.start.figures;
        const std::string changed =
            row.changed.empty() ? "" : fmt::format("; changed before: {}", row.changed);
        table.rows.push_back(
            {fmt::format("{}", ++start_number), number(figures.line_current_inrush_100ms_rms_A, 1),
             number(row.sensor_inrush_100ms_rms_A, 1), number(figures.time_to_speed_s, 3),
             fmt::format("{:.1f}", figures.line_current_peak_A),
             number(figures.line_voltage_half_cycle_rms_min_V, 1),
             row.stage ? fmt::format("{}", *row.stage) : "-", level_words(row.memory),
             start_remark(row) + changed});
    }
    return table;
}

Page repeat_page(const RepeatResult& result, const FirstAndLast::Recorded& recorded) {
    Page page;
    page.title = result.title;
    page.lead = repeat_sentence(result);
    std::vector<PagePart> beware;
    for (const std::string& warning : result.warnings) {
        beware.emplace_back(Notice{"Beware: " + warning + "."});
    }
    if (const std::string failed = failed_words(result); !failed.empty()) {
        beware.emplace_back(Notice{failed});
    }
    if (!beware.empty()) {
        page.sections.push_back({"Beware", beware, ""});
    }
    std::vector<PagePart> course = {learning_plot(result)};
    for (const std::string& sentence : repeat_conclusions(result)) {
        course.emplace_back(Paragraph{sentence});
    }
    page.sections.push_back({"", std::move(course), ""});
    page.sections.push_back({"All starts", {starts_table(result)}, ""});
    if (recorded.last) {
        page.sections.push_back(
            {"",
             {comparison_plot({"first start", &recorded.first},
                              {fmt::format("start {}", result.starts.size()), &*recorded.last})},
             ""});
        page.sections.push_back({"",
                                 {waveform_plot(*recorded.last, "Waves of the last start"),
                                  thinning_words(recorded.last->waves)},
                                 ""});
    } else {
        page.sections.push_back({"",
                                 {waveform_plot(recorded.first, "Waves of the first start"),
                                  thinning_words(recorded.first.waves)},
                                 ""});
    }
    return page;
}

}  // namespace sim
