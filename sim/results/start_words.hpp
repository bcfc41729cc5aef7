// The words and figures of a start's result, as every text and page for people gives them.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "sim/bench/start_result.hpp"

namespace sim {

/// What happened, in one sentence of the run's own numbers.
std::string start_sentence(const StartResult& result);

struct StartFigureRow {
    const char* label;
    std::function<std::string(const StartResult&)> cell;
};

/// The key figures in the order in which they are shown.
const std::vector<StartFigureRow>& start_figure_rows();

/// What the controller began to do, and why.
std::string step_words(const ControllerStep& step);

/// A broken monitor, with what it saw.
std::string broken_words(const NamedViolation& broken, bool has_limiter);

}  // namespace sim
