// A plot as the page's own program reads it (browser/plot_view.js).
#pragma once

#include <string>
#include <string_view>

#include "sim/pages/plot.hpp"

namespace sim {

/// JSON that may stand in a script element: it holds no "<".
std::string plot_json(const Plot& plot);

std::string_view word_of(Colour colour);
std::string_view word_of(Dash dash);

}  // namespace sim
