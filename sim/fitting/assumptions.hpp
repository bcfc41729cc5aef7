// Everything in a fit that is not printed on the unit and not searched for, in words.
#pragma once

#include <string>
#include <vector>

#include "sim/fitting/nameplate.hpp"

namespace sim {

/// One sentence each, without a full stop; only those that concern this nameplate.
std::vector<std::string> assumptions_of(const Nameplate&, bool has_displacement);

}  // namespace sim
