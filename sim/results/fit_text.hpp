// A fit for people: the figures with their differences, what stays open, what was assumed, and the
// tables to copy into a scenario.
#pragma once

#include <string>

#include "sim/fitting/nameplate_fit.hpp"

namespace sim {

std::string fit_text(const NameplateFit& fit);

/// One line: how well it fits.
std::string fit_verdict(const NameplateFit& fit);

}  // namespace sim
