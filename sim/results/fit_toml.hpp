// A fit as the tables [motor] and [load] of a scenario, each value with its origin in a comment;
// for a motor without a run capacitor also [start_aid], without which it would not start.
#pragma once

#include <string>

#include "sim/fitting/nameplate_fit.hpp"

namespace sim {

/// With a heading that says what was printed and what was assumed.
std::string fit_toml(const NameplateFit& fit);

/// The tables alone.
std::string fit_tables(const NameplateFit& fit);

}  // namespace sim
