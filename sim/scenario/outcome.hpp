// The documented list of ways in which a run can end. One word each: a scenario expects one, and
// every result reports one.
//
// "Up to speed" is at least 90 % of synchronous speed; "fed" means that the main winding is on the
// supply through the thyristors or a closed contact.
#pragma once

#include <array>
#include <optional>
#include <string_view>

namespace sim {

enum class Outcome {
    running,            ///< up to speed and fed at the end
    running_backwards,  ///< fed at the end, and turning backwards
    stalled,            ///< fed at the end, but not up to speed
    protector_open,     ///< the unit's own protection holds it off
    resting,            ///< the controller has let go and waits to retry, or waits for a call
    locked_out,         ///< the controller has used up its tries
    supply_tripped,     ///< the supply has switched itself off
    stopped,            ///< the call has ended and the motor is not fed
    not_started,        ///< the call is there, but the controller has not fed the motor
    controller_failed,  ///< the controller, outside this program, gave no proper answer
};

struct OutcomeWord {
    Outcome outcome;
    std::string_view word;
    std::string_view meaning;
};

/// Every outcome once, in the order of the enumeration.
const std::array<OutcomeWord, 10>& outcome_words();

std::string_view word_of(Outcome outcome);
/// None if `word` is not in the list.
std::optional<Outcome> outcome_from_word(std::string_view word);

}  // namespace sim
