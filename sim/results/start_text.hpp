// A start's result as text for people; several results stand side by side, on common scales.
#pragma once

#include <string>
#include <vector>

#include "sim/bench/start_result.hpp"

namespace sim {

/// One line: outcome and cause.
std::string verdict_line(const StartResult& result);

/// The whole page: verdict, figures, course, monitors, energy, cautions.
std::string start_text(const std::vector<StartResult>& results);

}  // namespace sim
