#include "sim/scenario/outcome.hpp"

namespace sim {

const std::array<OutcomeWord, 10>& outcome_words() {
    static constexpr std::array<OutcomeWord, 10> words = {{
        {Outcome::running, "running",
         "up to speed (at least 90 % of synchronous) and fed at the end"},
        {Outcome::running_backwards, "running_backwards",
         "fed at the end, but turning backwards for a quarter of a second (faster than 20 % of "
         "synchronous)"},
        {Outcome::stalled, "stalled", "fed at the end, but not up to speed"},
        {Outcome::protector_open, "protector_open",
         "the unit's own protector or protection module holds it off at the end"},
        {Outcome::resting, "resting",
         "the controller has let go and waits to retry, or waits for a call"},
        {Outcome::locked_out, "locked_out", "the controller has used up its tries"},
        {Outcome::supply_tripped, "supply_tripped", "the supply has switched itself off"},
        {Outcome::stopped, "stopped", "the call has ended and the motor is not fed"},
        {Outcome::not_started, "not_started",
         "the call is there, but the controller has not fed the motor"},
        {Outcome::controller_failed, "controller_failed",
         "a controller outside this program crashed, hung, or answered with nonsense"},
    }};
    return words;
}

std::string_view word_of(Outcome outcome) {
    for (const OutcomeWord& row : outcome_words()) {
        if (row.outcome == outcome) {
            return row.word;
        }
    }
    return {};
}

std::optional<Outcome> outcome_from_word(std::string_view word) {
    for (const OutcomeWord& row : outcome_words()) {
        if (row.word == word) {
            return row.outcome;
        }
    }
    return std::nullopt;
}

}  // namespace sim
