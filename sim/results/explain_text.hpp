// An explanation as a page for people, and as one line.
#pragma once

#include <string>

#include "sim/explaining/explanation.hpp"

namespace sim {

std::string explain_text(const Explanation& explanation);
/// Ends in a newline.
std::string explain_verdict(const Explanation& explanation);

}  // namespace sim
