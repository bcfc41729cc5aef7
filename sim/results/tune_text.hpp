// A ladder search as a page for people.
#pragma once

#include <string>

#include "sim/tuning/ladder_search.hpp"

namespace sim {

std::string tune_text(const std::string& title, const LadderSearch& search);
/// One line: what was gained.
std::string tune_verdict(const std::string& scenario, const LadderSearch& search);

}  // namespace sim
