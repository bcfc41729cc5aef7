#include "sim/results/explain_words.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/results/spaced_word.hpp"

namespace sim {

namespace {

/// The values beyond a turn, or of a list, that end so; by size where they are a list.
std::vector<std::string> values_that(bool come_up, const WayOfChange& way, bool beyond_turn) {
    std::vector<double> values;
    bool counts = !beyond_turn;
    for (const TriedValue& one : way.tried) {
        counts = counts || (way.turn && one.value == way.turn->after);
        if (counts && one.comes_up == come_up) {
            values.push_back(one.value);
        }
    }
    if (way.change.spacing == Spacing::steps) {
        std::sort(values.begin(), values.end());
    }
    std::vector<std::string> words;
    words.reserve(values.size());
    for (const double value : values) {
        words.push_back(words_for(way.change, value));
    }
    return words;
}

/// "(given 40 uF)"; nothing where the measure is the given value itself.
std::string given_words(const Change& change) {
    const bool is_measure_of_itself = change.unit.rfind("times", 0) == 0;
    return is_measure_of_itself ? "" : fmt::format(" (given {})", words_for(change, change.given));
}

const TriedValue* tried_at(const WayOfChange& way, double value) {
    const auto found = std::find_if(way.tried.begin(), way.tried.end(),
                                    [value](const TriedValue& one) { return one.value == value; });
    return found == way.tried.end() ? nullptr : &*found;
}

std::string remedy_that_helps(const WayOfChange& way) {
    const Change& change = way.change;
    if (change.spacing == Spacing::yes_no) {
        return "";
    }
    if (change.spacing == Spacing::steps) {
        const std::vector<std::string> fails = values_that(false, way, false);
        return fmt::format("{}{}", joined(values_that(true, way, false)),
                           fails.empty() ? "" : ", but not " + joined(fails));
    }
    std::string text = fmt::format("from {}; {} does not do{}", words_for(change, way.turn->after),
                                   words_for(change, way.turn->before), given_words(change));
    if (!way.stays_turned()) {
        text += fmt::format("; further on no more at {}", joined(values_that(false, way, true)));
    }
    return text;
}

/// How it ends then, where that is another end than the scenario's own.
std::string other_end(const WayOfChange& way, const std::string& own_end) {
    const TriedValue* last = tried_at(way, way.change.boldest);
    return last == nullptr || last->ended == own_end ? "" : last->ended;
}

std::string remedy_in_vain(const WayOfChange& way, const std::string& own_end) {
    const Change& change = way.change;
    const std::string end = other_end(way, own_end);
    std::string text;
    if (change.spacing == Spacing::steps) {
        text = joined(values_that(false, way, false));
    } else if (change.spacing != Spacing::yes_no) {
        text = fmt::format("to {}{}", words_for(change, change.boldest), given_words(change));
    }
    return text + (text.empty() || end.empty() ? "" : ": ") + end;
}

std::string strain_that_stops(const WayOfChange& way) {
    const TriedValue* failing = tried_at(way, way.turn->after);
    std::string text =
        fmt::format("still at {}; no more at {}{}: {}", words_for(way.change, way.turn->before),
                    words_for(way.change, way.turn->after), given_words(way.change),
                    failing != nullptr ? failing->ended : "");
    if (!way.stays_turned()) {
        text += fmt::format("; further on again at {}", joined(values_that(true, way, true)));
    }
    return text;
}

std::string strain_in_vain(const WayOfChange& way) {
    return fmt::format("to {}{}", words_for(way.change, way.change.boldest),
                       given_words(way.change));
}

std::string end_of(const StartResult& start) {
    Trial trial;
    trial.outcome = start.outcome;
    trial.cause = start.cause;
    return ending_of(trial);
}

}  // namespace

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (std::size_t k = 0; k < words.size(); ++k) {
        text += (k == 0 ? "" : k + 1 == words.size() ? " and " : ", ") + words[k];
    }
    return text;
}

std::string explained_verdict(const Explanation& explanation) {
    const StartResult& start = explanation.start;
    if (explanation.comes_up) {
        return fmt::format("It comes up, in {:.2f} s.",
                           start.figures.time_to_speed_s.value_or(0.0));
    }
    std::string text =
        start.outcome == Outcome::running ? "It comes up, but not as it must" : "It fails";
    text += ": " + spaced(std::string(word_of(start.outcome)));
    if (!start.cause.empty()) {
        text += " (" + spaced(start.cause) + ")";
    }
    for (const NamedViolation& broken : start.monitors) {
        text +=
            fmt::format("; {}: {:.3g} {} at {:.3f} s, {:.3g} allowed",
                        spaced(std::string(broken.monitor)), broken.violation.seen,
                        broken.violation.unit, broken.violation.time_s, broken.violation.allowed);
    }
    return text + ".";
}

std::string what_came_of(const WayOfChange& way, const Explanation& explanation) {
    if (explanation.comes_up) {
        return way.turn ? strain_that_stops(way) : strain_in_vain(way);
    }
    return way.turn ? remedy_that_helps(way) : remedy_in_vain(way, end_of(explanation.start));
}

std::string together_words(const ChangedTogether& together) {
    std::vector<std::string> words;
    for (const ChangedTogether::Part& part : together.parts) {
        words.push_back(
            part.change.spacing == Spacing::yes_no
                ? part.change.what
                : fmt::format("{}, {}", part.change.what, words_for(part.change, part.value)));
    }
    std::string text;
    for (const std::string& one : words) {
        text += (text.empty() ? "" : "; with ") + one;
    }
    return text;
}

std::string how_it_was_found(const Explanation& explanation) {
    const Fineness& fineness = explanation.fineness;
    std::string text = fmt::format("Found by {} reruns. ", explanation.reruns);
    if (fineness.looks == 1) {
        text += fmt::format(
            "They are long, so each change was tried at its boldest, and a limit "
            "was closed in on in {} halvings. ",
            fineness.most_halvings);
    } else {
        text += fmt::format(
            "Each change was tried at {} values; both sides of a limit between lie within {:.0f} % "
            "of each other, half a kelvin or half a per cent of the way, and neither is a guess. ",
            fineness.looks, 100.0 * (fineness.ratio - 1.0));
    }
    text += "What no rerun has looked at is not known.";
    if (explanation.was_interrupted) {
        text += fmt::format(" Interrupted: {} changes were not tried, and none together.",
                            explanation.ways_not_tried);
    }
    return text;
}

}  // namespace sim
