// The library as tables, for people.
#pragma once

#include <string>
#include <vector>

#include "sim/bench/library_overview.hpp"
#include "sim/suites/suite_overview.hpp"

namespace sim {

std::string library_text(const std::vector<CompressorOverview>& compressors,
                         const std::vector<SupplyOverview>& supplies,
                         const std::vector<SuiteOverview>& suites);

}  // namespace sim
