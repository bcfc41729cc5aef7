// The library as JSON, schema "runup.list/1".
#pragma once

#include <nlohmann/json.hpp>
#include <vector>

#include "sim/bench/library_overview.hpp"
#include "sim/suites/suite_overview.hpp"

namespace sim {

nlohmann::ordered_json library_json(const std::vector<CompressorOverview>& compressors,
                                    const std::vector<SupplyOverview>& supplies,
                                    const std::vector<SuiteOverview>& suites);

}  // namespace sim
