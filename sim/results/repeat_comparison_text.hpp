// Several series of starts side by side: one line per start, one group of columns per learning law.
#pragma once

#include <string>

#include "sim/bench/repeat_comparison.hpp"

namespace sim {

std::string repeat_comparison_text(const RepeatComparison& comparison);

/// One line per law.
std::string repeat_comparison_verdict(const RepeatComparison& comparison);

}  // namespace sim
