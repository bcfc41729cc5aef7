// Histograms as HTML with drawings in SVG.
#pragma once

#include <string>

#include "sim/pages/histogram.hpp"

namespace sim {

std::string histograms_html(const Histograms& histograms);

}  // namespace sim
