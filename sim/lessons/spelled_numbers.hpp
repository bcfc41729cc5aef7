// Numbers of a run as a lesson's sentences spell them.
#pragma once

#include <optional>
#include <string>

#include "sim/pages/extremes_decimator.hpp"

namespace sim {

/// Three digits or so, with the unit; "-" if there is none.
std::string amperes(const std::optional<double>& value);
std::string volts(const std::optional<double>& value);
std::string newton_metres(double value);
std::string seconds(const std::optional<double>& value);
std::string percent(double share);

/// Of a trace at a time, by its last point until then; 0 before the first.
double value_at(const Trace& trace, double time_s);
/// For how long a current was above `threshold`.
double time_above_s(const Trace& trace, double threshold);

}  // namespace sim
