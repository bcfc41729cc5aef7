// A plot as HTML: a toolbar, a figure with a legend per panel, and its numbers.
#pragma once

#include <string>

#include "sim/pages/plot.hpp"

namespace sim {

std::string plot_html(const Plot& plot);

}  // namespace sim
