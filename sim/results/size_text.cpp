#include "sim/results/size_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <vector>

#include "sim/results/cautions.hpp"
#include "sim/results/size_cost_text.hpp"
#include "sim/results/spaced_word.hpp"
#include "sim/results/wrapped_text.hpp"
#include "sim/sizing/bad_day.hpp"
#include "sim/sizing/site_checks.hpp"

namespace sim {

namespace {

constexpr int name_width = 36;
constexpr int rating_width = 5;
constexpr int cell_width = 15;

/// Of a supply, in a few words.
std::string words_for(const SupplyDecision& decision) {
    switch (decision.answer) {
        case Answer::utility_carries_it:
            return "no limiter needed: no storage";
        case Answer::surge_to_spare:
            return "no limiter needed: surge to spare";
        case Answer::start_aid_will_do:
            return *decision.way == Way::thermistor ? "a start thermistor will do"
                                                    : "a start capacitor will do";
        case Answer::limiter_needed:
            return "limiter needed";
        case Answer::not_sure_enough:
            return "not sure enough";
        case Answer::nothing_starts_it:
            return "nothing starts it";
        case Answer::too_small_to_run_it:
            return "too small for it as it runs";
        case Answer::not_finished:
            return "not finished";
    }
    return "";
}

std::string_view phrase_for(Way way) {
    switch (way) {
        case Way::directly:
            return "a direct start";
        case Way::thermistor:
            return "a start thermistor";
        case Way::capacitor_relay:
            return "a start capacitor with relay";
        case Way::limiter:
            return "the limiter";
    }
    return "";
}

/// Why a start failed, in at most thirteen letters.
std::string short_failure(const OneStart& start) {
    if (start.cause == "rotor_never_turned") {
        return "never turns";
    }
    switch (start.outcome) {
        case Outcome::supply_tripped:
            return "trips supply";
        case Outcome::protector_open:
            return "protector";
        case Outcome::running_backwards:
            return "backwards";
        case Outcome::resting:
        case Outcome::locked_out:
            return "lets go";
        case Outcome::running:
            return "unsafe";
        case Outcome::stalled:
        case Outcome::stopped:
        case Outcome::not_started:
            break;
    }
    return start.cause == "contactor_dropped_out" ? "contactor" : "stays slow";
}

std::string normal_day_cell(const WayOnSupply& way) {
    if (!way.fits) {
        return "-";
    }
    if (!way.normal_day) {
        return "not run";
    }
    if (!way.normal_day->came_up) {
        return short_failure(*way.normal_day);
    }
    return way.normal_day->clamp_A ? fmt::format("up, {:.0f} A", *way.normal_day->clamp_A) : "up";
}

std::string bad_days_cell(const WayOnSupply& way) {
    if (way.bad_days.trials == 0) {
        return "";
    }
    return fmt::format("{:.0f} % ({:.0f}-{:.0f})", 100.0 * way.bad_days.share(),
                       100.0 * way.bad_days.lowest(), 100.0 * way.bad_days.highest());
}

std::string trimmed(std::string line) {
    return line.erase(line.find_last_not_of(' ') + 1) + "\n";
}

std::string rows_of(const SupplyFindings& on, const SupplyDecision& decision) {
    const std::optional<double> rated_VA = on.supply.rated_VA();
    std::string first =
        fmt::format("  {:<{}}{:>{}}  ", on.supply.name, name_width - 2,
                    rated_VA ? fmt::format("{:.1f}", 1e-3 * *rated_VA) : "-", rating_width);
    std::string second =
        fmt::format("    {:<{}}  ", words_for(decision), name_width - 4 + rating_width);
    for (const WayOnSupply& way : on.ways) {
        first += fmt::format("{:<{}}", normal_day_cell(way), cell_width);
        second += fmt::format("{:<{}}", bad_days_cell(way), cell_width);
    }
    return trimmed(first) + trimmed(second);
}

std::string table(const SizeReport& report) {
    std::string text = trimmed(fmt::format(
        "  {:<{}}{:>{}}  {:<{}}{:<{}}{:<{}}{}", "SUPPLY", name_width - 2, "kVA", rating_width,
        "DIRECTLY", cell_width, "THERMISTOR", cell_width, "CAPAC.+RELAY", cell_width, "LIMITER"));
    for (std::size_t k = 0; k < report.findings.supplies.size(); ++k) {
        text += rows_of(report.findings.supplies[k], report.decision.supplies[k]);
    }
    return text;
}

/// Supplies of one answer, as part of a sentence.
std::string names_with(const SizeReport& report, const std::vector<Answer>& answers) {
    std::vector<std::string> names;
    for (std::size_t k = 0; k < report.findings.supplies.size(); ++k) {
        const Answer answer = report.decision.supplies[k].answer;
        if (std::find(answers.begin(), answers.end(), answer) != answers.end()) {
            names.push_back(report.findings.supplies[k].supply.name);
        }
    }
    return fmt::format("{}", fmt::join(names, ", "));
}

/// Where no way is good enough.
std::string nearest_lines(const SizeReport& report) {
    std::string text;
    for (std::size_t k = 0; k < report.findings.supplies.size(); ++k) {
        const SupplyDecision& decision = report.decision.supplies[k];
        const SupplyFindings& on = report.findings.supplies[k];
        if (decision.answer == Answer::not_sure_enough) {
            text += wrapped("  ", "    ",
                            fmt::format("No way is sure enough on {}; the nearest is {}, with "
                                        "{:.0f} % of bad days.",
                                        on.supply.name, phrase_for(*decision.nearest),
                                        100.0 * on.by(*decision.nearest).bad_days.share()));
        }
    }
    return text;
}

std::string answer_lines(const SizeReport& report) {
    struct Line {
        std::vector<Answer> answers;
        std::string_view before;
        std::string_view after;
    };
    const std::vector<Line> lines = {
        {{Answer::limiter_needed},
         "A limiter is needed on ",
         ": only with it does the compressor come up on bad days, too."},
        {{Answer::start_aid_will_do}, "A cheaper start aid than a limiter will do on ", "."},
        {{Answer::surge_to_spare},
         "No limiter is needed on ",
         ": the compressor comes up directly there on bad days, too; there is surge to spare."},
        {{Answer::utility_carries_it},
         "No limiter is needed on ",
         ": it comes up directly; there is no storage behind the service, and the utility carries "
         "the surge."},
        {{Answer::too_small_to_run_it},
         "Too small for it are ",
         ": the compressor may come up, but what it draws as it runs on a hot day is above their "
         "rating."},
        {{Answer::nothing_starts_it}, "Nothing that was tried starts it on ", "."},
        {{Answer::not_finished}, "Nothing can be said yet about ", "."},
    };
    std::string text;
    for (const Line& line : lines) {
        const std::string names = names_with(report, line.answers);
        if (!names.empty()) {
            text +=
                wrapped("  ", "    ", std::string(line.before) + names + std::string(line.after));
        }
    }
    text += nearest_lines(report);
    if (report.not_backed_up) {
        text =
            "  The compressor is not on the backed-up circuits: no inverter ever has to start "
            "it.\n" +
            text;
    }
    return text;
}

/// The commonest ending of the bad days that were lost, where a way starts at all.
std::string lost_days(const SizeReport& report) {
    std::string text;
    for (const SupplyFindings& on : report.findings.supplies) {
        for (const WayOnSupply& way : on.ways) {
            if (way.failures.empty()) {
                continue;
            }
            const auto commonest =
                std::max_element(way.failures.begin(), way.failures.end(),
                                 [](const auto& a, const auto& b) { return a.second < b.second; });
            const int lost = way.bad_days.trials - way.bad_days.successes;
            text += fmt::format("  {:<{}}{:<{}}{} of {}, {}{}\n", on.supply.name, name_width,
                                spaced(std::string(word_of(way.way))), cell_width + 2, lost,
                                way.bad_days.trials, lost == commonest->second ? "" : "most ",
                                spaced(commonest->first));
        }
    }
    return text.empty() ? "" : "\n  Bad days that were lost, and how they ended\n" + text;
}

std::string rules(const SizeReport& report) {
    std::string text = wrapped(
        "  ", "  ",
        fmt::format("up, A: comes up on the normal day ({:.0f} C, {:.0f} s of rest), with this "
                    "reading of an inrush clamp (100 ms RMS). %: of {} bad days each (seed {}) on "
                    "which it comes up, the supply stays on and no safety monitor is broken; "
                    "95 % interval. Good enough: lower end at least {:.0f} %. A way that fails on "
                    "the normal day gets no bad days. Only the supplies listed were looked at.",
                    report.sized.unit.conditions.ambient_C, report.sized.unit.conditions.rest_s,
                    report.plan.draws, report.plan.seed, 100.0 * report.decision.least_rate));
    std::vector<std::string> ranges;
    for (const BadDayFigure& figure : bad_day_figures()) {
        ranges.push_back(
            fmt::format("{} {:g} to {:g}", figure.name, figure.lowest, figure.highest));
    }
    text += wrapped("  ", "  ",
                    fmt::format("A bad day, drawn evenly: {}. Where these are from: runup size "
                                "--assumptions.",
                                fmt::join(ranges, ", ")));
    if (report.sized.is_from_nameplate) {
        text += wrapped("  Beware: ", "    ",
                        "a nameplate says nothing about the gas that holds the rotor after a short "
                        "rest or on a hot day; real bad days are harder than these.");
    }
    return text;
}

}  // namespace

std::string size_text(const SizeReport& report) {
    std::string text = report.sized.unit.title + "\n\n" + answer_lines(report) + "\n";
    if (report.findings.ended_early) {
        text += wrapped("  ", "  ",
                        fmt::format("ENDED EARLY, after {} starts: the intervals are as wide as "
                                    "that leaves them.\n",
                                    report.findings.starts)) +
                "\n";
    }
    text += table(report) + lost_days(report) + "\n" + rules(report) + "\n" +
            size_cost_text(report) + "\n  On site\n";
    for (const std::string& sentence : site_checks(report)) {
        text += wrapped("  - ", "    ", sentence);
    }
    return text + "\n" + cautions + fitting_cautions;
}

std::string size_verdict(const SizeReport& report) {
    std::vector<std::string> answers;
    for (std::size_t k = 0; k < report.findings.supplies.size(); ++k) {
        answers.push_back(fmt::format("{} {}", report.findings.supplies[k].supply.name,
                                      words_for(report.decision.supplies[k])));
    }
    return fmt::format("{}: {}{}\n", report.sized.unit.name, fmt::join(answers, "; "),
                       report.findings.ended_early ? " (ended early)" : "");
}

std::string variable_speed_text(const std::string& unit_title) {
    return unit_title + "\n\n" +
           wrapped("  ", "  ",
                   "No limiter is needed, nor may one be fitted: the compressor has a "
                   "variable-speed drive of its own, which ramps it by itself. What a supply must "
                   "carry is the drive's running current and the charging of its capacitors; no "
                   "start was simulated.") +
           "\n" + cautions;
}

}  // namespace sim
