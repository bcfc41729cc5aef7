#include "sim/results/size_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "sim/results/capitalized.hpp"
#include "sim/results/spaced_word.hpp"
#include "sim/sizing/bad_day.hpp"

namespace sim {

namespace {

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
        case Outcome::controller_failed:
            return "no controller";
        case Outcome::stalled:
        case Outcome::stopped:
        case Outcome::not_started:
            break;
    }
    return start.cause == "contactor_dropped_out" ? "contactor" : "stays slow";
}

/// Supplies of one answer, as part of a sentence.
std::string names_with(const SizeReport& report, Answer answer) {
    std::vector<std::string> names;
    for (std::size_t k = 0; k < report.findings.supplies.size(); ++k) {
        if (report.decision.supplies[k].answer == answer) {
            names.push_back(report.findings.supplies[k].supply.name);
        }
    }
    return fmt::format("{}", fmt::join(names, ", "));
}

/// The cause says it all, except of what has opened.
std::string ending_words(const std::string& ending) {
    const std::size_t cause = ending.find(" (");
    const bool has_opened =
        ending.rfind("supply_tripped", 0) == 0 || ending.rfind("protector_open", 0) == 0;
    return spaced(cause == std::string::npos || has_opened
                      ? ending
                      : ending.substr(cause + 2, ending.size() - cause - 3));
}

/// What is wrong with a direct start, as part of a sentence.
std::string fault_of_direct(const SupplyFindings& on, const Demands& demands) {
    const WayOnSupply& direct = on.by(Way::directly);
    if (!direct.fits) {
        return "nothing would feed its auxiliary winding";
    }
    if (!direct.starts_normally()) {
        return "it does not come up";
    }
    if (direct.bad_days.lowest() < demands.least_rate) {
        return fmt::format("it comes up on {} % of bad days", bad_days_words(direct));
    }
    return fmt::format("it pulls the voltage down to {}", voltage_words(on.supply, direct));
}

/// Where something has to be fitted.
void add_needed(std::vector<std::string>& sentences, const SizeReport& report) {
    for (std::size_t k = 0; k < report.findings.supplies.size(); ++k) {
        const SupplyDecision& decision = report.decision.supplies[k];
        const SupplyFindings& on = report.findings.supplies[k];
        if (!decision.way || *decision.way == Way::directly) {
            continue;
        }
        const WayOnSupply& way = on.by(*decision.way);
        const std::string voltage = voltage_words(on.supply, way);
        sentences.push_back(fmt::format(
            "{} on {}: directly {}. With it the compressor comes up on {:.0f} % of bad days{}.",
            *decision.way == Way::limiter
                ? std::string("A limiter is needed")
                : fmt::format("{} will do instead of a limiter",
                              capitalized(std::string(phrase_for(way.way)))),
            on.supply.name, fault_of_direct(on, report.decision.demands),
            100.0 * way.bad_days.share(),
            voltage.empty() ? "" : ", and the voltage falls to " + voltage));
    }
}

/// Where no way is good enough.
void add_nearest(std::vector<std::string>& sentences, const SizeReport& report) {
    for (std::size_t k = 0; k < report.findings.supplies.size(); ++k) {
        const SupplyDecision& decision = report.decision.supplies[k];
        const SupplyFindings& on = report.findings.supplies[k];
        if (decision.answer == Answer::not_sure_enough) {
            const WayOnSupply& way = on.by(*decision.nearest);
            sentences.push_back(fmt::format(
                "No way is sure enough on {}; the nearest is {}, with {:.0f} % of bad "
                "days{}.",
                on.supply.name, phrase_for(*decision.nearest), 100.0 * way.bad_days.share(),
                holds_voltage(on.supply, way, report.decision.demands)
                    ? std::string()
                    : fmt::format(", but it pulls the voltage down to {} of nominal",
                                  voltage_words(on.supply, way))));
        }
    }
}

}  // namespace

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

std::string normal_day_words(const WayOnSupply& way) {
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

std::string bad_days_words(const WayOnSupply& way) {
    if (way.bad_days.trials == 0) {
        return "";
    }
    return fmt::format("{:.0f} ({:.0f}-{:.0f})", 100.0 * way.bad_days.share(),
                       100.0 * way.bad_days.lowest(), 100.0 * way.bad_days.highest());
}

std::string voltage_words(const SupplyAtHand& supply, const WayOnSupply& way) {
    const std::optional<double> share = lowest_voltage_share(supply, way);
    return way.starts_normally() && share ? fmt::format("{:.0f} %", 100.0 * *share) : "";
}

std::vector<std::string> answer_sentences(const SizeReport& report) {
    struct Line {
        Answer answer;
        std::string_view before;
        std::string_view after;
    };
    const std::vector<Line> lines = {
        {Answer::surge_to_spare, "No limiter is needed on ",
         ": the compressor comes up directly there on bad days, too; there is surge to spare."},
        {Answer::utility_carries_it, "No limiter is needed on ",
         ": it comes up directly; there is no storage behind the service, and the utility carries "
         "the surge."},
        {Answer::too_small_to_run_it, "Too small: ",
         "; what the compressor draws as it runs on a hot day is more than that may give for "
         "ever."},
        {Answer::nothing_starts_it, "Nothing that was tried starts it on ", "."},
        {Answer::not_finished, "Nothing can be said yet about ", "."},
    };
    std::vector<std::string> sentences;
    if (report.not_backed_up) {
        sentences.emplace_back(
            "The compressor is not on the backed-up circuits: no inverter ever has to start it.");
    }
    add_needed(sentences, report);
    for (const Line& line : lines) {
        const std::string names = names_with(report, line.answer);
        if (!names.empty()) {
            sentences.push_back(std::string(line.before) + names + std::string(line.after));
        }
    }
    add_nearest(sentences, report);
    return sentences;
}

std::vector<LostDays> lost_days(const SizeReport& report) {
    std::vector<LostDays> rows;
    for (const SupplyFindings& on : report.findings.supplies) {
        for (const WayOnSupply& way : on.ways) {
            if (way.failures.empty()) {
                continue;
            }
            const auto commonest =
                std::max_element(way.failures.begin(), way.failures.end(),
                                 [](const auto& a, const auto& b) { return a.second < b.second; });
            const int lost = way.bad_days.trials - way.bad_days.successes;
            rows.push_back({on.supply.name, spaced(std::string(word_of(way.way))),
                            fmt::format("{} of {}, {}{}", lost, way.bad_days.trials,
                                        lost == commonest->second ? "" : "most ",
                                        ending_words(commonest->first))});
        }
    }
    return rows;
}

std::vector<std::string> size_warnings(const SizeReport& report) {
    std::vector<std::string> warnings;
    if (report.findings.ended_early) {
        warnings.push_back(
            fmt::format("ENDED EARLY, after {} starts; the intervals are as wide as "
                        "that leaves them.",
                        report.findings.starts));
    }
    if (report.sized.is_from_nameplate) {
        warnings.emplace_back(
            "a nameplate says nothing about the gas that holds the rotor after a short rest or on "
            "a hot day; real bad days are harder than these.");
    }
    return warnings;
}

std::vector<std::string> rule_sentences(const SizeReport& report) {
    std::vector<std::string> ranges;
    for (const BadDayFigure& figure : bad_day_figures()) {
        ranges.push_back(
            fmt::format("{} {:g} to {:g}", figure.name, figure.lowest, figure.highest));
    }
    return {
        fmt::format(
            "up, A: comes up on the normal day ({:.0f} C, {:.0f} s of rest), with this "
            "reading of an inrush clamp (100 ms RMS). Below: per cent of {} bad days each (seed "
            "{}) on "
            "which it comes up at the first try, the supply stays on and no safety monitor "
            "is broken, with the 95 % interval. Sure enough: lower end at least {:g} %, and the "
            "voltage of an inverter or a generator falls to no less than {:g} % of nominal on the "
            "normal day (lowest half cycle; other loads on it drop out below). A way that "
            "fails on the normal day gets no bad days. The limiter is as it comes out of "
            "its box; what it learns is not counted. Only the supplies listed were looked "
            "at.",
            report.sized.unit.conditions.ambient_C, report.sized.unit.conditions.rest_s,
            report.plan.draws, report.plan.seed, 100.0 * report.decision.demands.least_rate,
            100.0 * report.decision.demands.least_voltage_share),
        fmt::format("A bad day, each figure drawn evenly: {}. Where these are from: runup size "
                    "--assumptions.",
                    fmt::join(ranges, ", ")),
    };
}

}  // namespace sim
