// The words of an explanation, as every text and page gives them.
#pragma once

#include <string>
#include <vector>

#include "sim/explaining/explanation.hpp"

namespace sim {

/// What it came to, in a sentence.
std::string explained_verdict(const Explanation& explanation);

/// What one change does: "from 50.2 uF; 49.6 uF does not do (given 40 uF)". Empty where doing it
/// says everything.
std::string what_came_of(const WayOfChange& way, const Explanation& explanation);

/// "a larger run capacitor, 44 uF; with warmer oil, 9 K above the air"
std::string together_words(const ChangedTogether& together);

/// How many reruns, how closely, and what is not known.
std::string how_it_was_found(const Explanation& explanation);

/// "a, b and c"
std::string joined(const std::vector<std::string>& words);

}  // namespace sim
