// The words of a series of starts, as every text and page for people gives them.
#pragma once

#include <string>
#include <vector>

#include "sim/bench/repeat_run.hpp"

namespace sim {

/// How many came up.
std::string repeat_counts(const RepeatResult& result);

/// What was run and how many came up, in one sentence.
std::string repeat_sentence(const RepeatResult& result);

/// How a start ended, why, and what was broken.
std::string start_remark(const RepeatedStart& row);

/// What the series shows: whether it settles, what was learned, what it cost the memory. Only what
/// there is to say.
std::vector<std::string> repeat_conclusions(const RepeatResult& result);

}  // namespace sim
