// The library as two tables, for people.
#pragma once

#include <string>
#include <vector>

#include "sim/bench/library_overview.hpp"

namespace sim {

std::string library_text(const std::vector<CompressorOverview>& compressors,
                         const std::vector<SupplyOverview>& supplies);

}  // namespace sim
