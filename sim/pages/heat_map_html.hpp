// A heat map as HTML: a table with a scale below it. A keyboard scrolls it where it is wider than
// the page.
#pragma once

#include <string>

#include "sim/pages/heat_map.hpp"

namespace sim {

/// Steps of colour, which page.css defines as .heat-0 to .heat-6.
inline constexpr int heat_steps = 7;

std::string heat_map_html(const HeatMap& map);

}  // namespace sim
