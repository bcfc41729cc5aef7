#include "sim/results/repeat_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "sim/results/spaced_word.hpp"

namespace sim {

namespace {

/// Not of a memory that is as it should be.
std::string memory_remark(const std::optional<RepeatedStart::Memory>& memory) {
    const bool is_told = memory && memory->found != firmware::Recovery::fresh &&
                         memory->found != firmware::Recovery::recovered;
    return is_told ? fmt::format(", memory: {}", firmware::name_of(memory->found)) : "";
}

std::string settled_words(const RepeatResult& result) {
    if (result.starts.size() < fewest_to_settle) {
        return fmt::format("Whether it settles shows from {} starts on.", fewest_to_settle);
    }
    const std::optional<int> current = current_settled_after(result);
    std::string current_words =
        current ? fmt::format("The clamp current stays within 5 % from start {} on.", *current)
                : std::string("The clamp current has not settled within 5 % over three starts.");
    if (!has_learned(result)) {
        return current_words;
    }
    const std::optional<int> ladder = ladder_settled_after(result);
    return (ladder ? fmt::format("The ladder is the same within 5 % from start {} on. ", *ladder)
                   : std::string("The ladder has not settled within 5 % over three starts. ")) +
           current_words;
}

std::string owed_rest_words(const RepeatResult& result) {
    const bool waits =
        result.plan.power_cuts &&
        std::any_of(result.starts.begin(), result.starts.end(),
                    [](const RepeatedStart& row) { return row.start.outcome == Outcome::resting; });
    return waits ? "A controller that finds at power-up that a rest is owed cannot know how long "
                   "it was without power, and rests in full before it starts: give [run] a "
                   "duration_s beyond rest_before_retry_s, or a power_off_after_s at which the "
                   "rest is over."
                 : "";
}

std::string endurance_words(const RepeatResult& result) {
    const StoreWear& wear = result.store_wear;
    if (wear.word_writes == 0 && wear.erases == 0) {
        return "";
    }
    return fmt::format(
        "Memory: {} words written, {} page {}. At that rate 10,000 starts take {:.0f} "
        "words and {:.0f} erases, which is {:.1f} % of the {:.0f} erases that a page "
        "of flash is good for (common practice).",
        wear.word_writes, wear.erases, wear.erases == 1 ? "erase" : "erases",
        per_10000_starts(wear.word_writes, result), per_10000_starts(wear.erases, result),
        100.0 * endurance_share(result), usual_page_endurance);
}

std::string level_words(const RepeatResult& result) {
    const auto& last = result.starts.back().memory;
    return last && has_learned(result)
               ? fmt::format("The last start began with {:g} % of the first stage as set{}.",
                             0.1 * last->learned_level_permille,
                             last->settled ? ", settled" : ", still searching")
               : "";
}

std::string regret_words(const RepeatResult& result) {
    if (!result.regret) {
        return "";
    }
    const Regret& regret = *result.regret;
    const auto amperes = [](const std::optional<double>& value) {
        return value ? fmt::format("{:.1f} A", *value) : std::string("not up in time");
    };
    const std::string value =
        regret.value() ? fmt::format("Regret {:.3f}", *regret.value()) : std::string("No regret");
    return fmt::format(
        "{}: one more start, learned {}, with the settings' ladder {}, with "
        "the best of {} ladders {}.",
        value, amperes(regret.learned_A), amperes(regret.as_set_A), regret.starts,
        amperes(regret.best_A));
}

}  // namespace

std::string repeat_counts(const RepeatResult& result) {
    const auto up = std::count_if(
        result.starts.begin(), result.starts.end(),
        [](const RepeatedStart& row) { return row.start.outcome == Outcome::running; });
    return fmt::format("{} of {} {}{}", up, result.starts.size(),
                       result.starts.size() == 1 ? "start comes up" : "starts come up",
                       result.interrupted ? ", stopped early" : "");
}

std::string start_remark(const RepeatedStart& row) {
    const StartResult& start = row.start;
    std::string text = std::string(word_of(start.outcome));
    if (!start.cause.empty()) {
        text += " (" + start.cause + ")";
    }
    text = spaced(text) + memory_remark(row.memory);
    for (const NamedViolation& broken : start.monitors) {
        text += fmt::format(", BROKEN {}", broken.monitor);
    }
    return text;
}

std::string repeat_sentence(const RepeatResult& result) {
    return fmt::format("{} {}, {:g} s of rest between them{}.", repeat_counts(result),
                       result.has_limiter ? "through the limiter" : "directly",
                       result.plan.rest_between_s,
                       result.plan.power_cuts ? ", in which the controller loses its power" : "");
}

std::vector<std::string> repeat_conclusions(const RepeatResult& result) {
    std::vector<std::string> sentences;
    for (const std::string& sentence :
         {settled_words(result), level_words(result), owed_rest_words(result), regret_words(result),
          endurance_words(result)}) {
        if (!sentence.empty()) {
            sentences.push_back(sentence);
        }
    }
    return sentences;
}

}  // namespace sim
