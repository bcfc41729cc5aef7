// A series of starts as a page for people: one line per start, with its clamp current as a bar.
#pragma once

#include <string>

#include "sim/bench/repeat_run.hpp"

namespace sim {

std::string repeat_text(const RepeatResult& result);

/// One line.
std::string repeat_verdict(const RepeatResult& result);

}  // namespace sim
