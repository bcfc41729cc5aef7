#include "sim/results/tune_text.hpp"

#include <fmt/format.h>

#include <vector>

#include "sim/results/cautions.hpp"

namespace sim {

namespace {

std::string targets(const LadderTrial& trial) {
    std::vector<std::string> numbers;
    for (const firmware::StageSettings& stage : trial.stages) {
        numbers.push_back(fmt::format("{:g}", 0.1 * stage.target_permille));
    }
    return fmt::format("{}", fmt::join(numbers, ", "));
}

std::string dwells(const LadderTrial& trial) {
    std::vector<std::string> numbers;
    for (const firmware::StageSettings& stage : trial.stages) {
        numbers.push_back(fmt::format("{}", stage.dwell_ms));
    }
    return fmt::format("{}", fmt::join(numbers, ", "));
}

std::string time_words(const LadderTrial& trial) {
    return trial.time_to_speed_s > 0.0 ? fmt::format("{:.3f} s", trial.time_to_speed_s) : "never";
}

std::string row(const char* label, const std::string& given, const std::string& best) {
    return fmt::format("  {:<27}{:<27}{}\n", label, given, best);
}

}  // namespace

std::string tune_text(const std::string& title, const LadderSearch& search) {
    const LadderTrial& given = search.given;
    const LadderTrial& best = search.best;
    std::string text = title + "\n\n";
    if (!best.counts) {
        return text + fmt::format("  No ladder brings it up within {:g} s: {} starts simulated.\n",
                                  in_time_s, search.starts);
    }
    text += row("", "LADDER AS GIVEN", "BEST FOUND");
    text += row("inrush clamp, 100 ms RMS", fmt::format("{:.2f} A", given.inrush_100ms_rms_A),
                fmt::format("{:.2f} A", best.inrush_100ms_rms_A));
    text += row("time to 90 % speed", time_words(given), time_words(best));
    text += row("stages, % of locked rotor", targets(given), targets(best));
    text += row("dwell, ms", dwells(given), dwells(best));
    text +=
        row("regret",
            given.counts ? fmt::format("{:.3f}", given.inrush_100ms_rms_A / best.inrush_100ms_rms_A)
                         : "does not count",
            "1");
    return text +
           fmt::format(
               "\n  {} starts simulated{}; a ladder counts if the rotor is up {:g} s after the "
               "call and no\n  monitor is broken. To copy into [limiter]:\n\n"
               "stage_percent = [{}]\nstage_dwell_ms = [{}]\n\n{}",
               search.starts, search.ended_early ? ", ended early" : "", in_time_s, targets(best),
               dwells(best), cautions);
}

std::string tune_verdict(const std::string& scenario, const LadderSearch& search) {
    if (!search.best.counts) {
        return scenario + ": no ladder brings it up in time\n";
    }
    return fmt::format("{}: {:.2f} A instead of {:.2f} A\n", scenario,
                       search.best.inrush_100ms_rms_A, search.given.inrush_100ms_rms_A);
}

}  // namespace sim
