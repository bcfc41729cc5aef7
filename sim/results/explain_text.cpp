#include "sim/results/explain_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/results/capitalized.hpp"
#include "sim/results/cautions.hpp"
#include "sim/results/explain_words.hpp"
#include "sim/results/spaced_word.hpp"
#include "sim/results/wrapped_text.hpp"

namespace sim {

namespace {

constexpr const char* item = "    - ";
constexpr const char* item_goes_on = "      ";

std::string items(const Explanation& explanation, bool with_turn) {
    std::string text;
    for (const WayOfChange& way : explanation.ways) {
        if (way.turn.has_value() == with_turn && !way.tried.empty()) {
            const std::string outcome = what_came_of(way, explanation);
            text += wrapped(item, item_goes_on,
                            way.change.what + (outcome.empty() ? "" : ": ") + outcome);
        }
    }
    return text;
}

std::string headed(const char* head, const std::string& body) {
    return body.empty() ? "" : fmt::format("  {}\n{}\n", head, body);
}

std::string together_text(const TogetherSearch& search) {
    if (!search.pairs.empty()) {
        std::string body;
        for (const ChangedTogether& pair : search.pairs) {
            body += wrapped(item, item_goes_on, together_words(pair));
        }
        return headed("No single change brings it up; these two together do, about that far", body);
    }
    std::string body = wrapped(
        "    ", "    ",
        fmt::format("No single change brings it up, and none of {} pairs.", search.pairs_tried));
    if (search.minimal_set) {
        body +=
            wrapped("    ", "    ", "All of these do together, and none of them can be left out:");
        for (const ChangedTogether::Part& part : search.minimal_set->parts) {
            body += wrapped(item, item_goes_on, together_words({{part}, 1.0}));
        }
    } else {
        body += wrapped("    ", "    ", "Nor do all changes at once.");
    }
    return headed("Changes taken together", body);
}

std::string story_text(const Story& story) {
    std::string text;
    for (const Sentence& one : story) {
        text += wrapped(fmt::format("  {:>9.3f} s  ", one.time_s), "               ",
                        capitalized(one.text) + ".");
    }
    return text;
}

std::string ways_text(const Explanation& explanation) {
    if (explanation.comes_up) {
        return headed("What keeps it from coming up, one thing changed at a time",
                      items(explanation, true)) +
               headed("What it bears, as far as tried", items(explanation, false));
    }
    return headed("What brings it up, one thing changed at a time", items(explanation, true)) +
           (explanation.together ? together_text(*explanation.together) : "") +
           headed("What alone does not, as far as tried", items(explanation, false));
}

}  // namespace

std::string explain_verdict(const Explanation& explanation) {
    const StartResult& start = explanation.start;
    std::string line = fmt::format("{}: {}", start.scenario, word_of(start.outcome));
    if (!start.cause.empty()) {
        line += " (" + spaced(start.cause) + ")";
    }
    for (const NamedViolation& broken : start.monitors) {
        line += fmt::format(", BROKEN {}", broken.monitor);
    }
    std::vector<std::string> names;
    for (const WayOfChange& way : explanation.ways) {
        if (way.turn) {
            names.push_back(way.change.name);
        }
    }
    const char* what = explanation.comes_up ? "could fail by" : "comes up with";
    line += names.empty() ? fmt::format("; none of {} changes alone makes a difference",
                                        explanation.ways.size())
                          : fmt::format("; {} {}", what, joined(names));
    return line + (explanation.was_interrupted ? ", interrupted\n" : "\n");
}

std::string explain_text(const Explanation& explanation) {
    std::string text = fmt::format("{}\n\n", explanation.start.title);
    text += wrapped("  ", "  ", explained_verdict(explanation)) + "\n";
    for (const std::string& warning : explanation.start.warnings) {
        text += wrapped("  Beware: ", "    ", warning + ".");
    }
    text += headed("What happened", story_text(explanation.story));
    text += ways_text(explanation);
    text += wrapped("  ", "  ", how_it_was_found(explanation)) + "\n";
    return text + cautions;
}

}  // namespace sim
