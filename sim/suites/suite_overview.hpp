// The bundled suites, each with what it is.
#pragma once

#include <string>
#include <vector>

namespace sim {

struct SuiteOverview {
    std::string name;
    std::string title;
};

/// By name.
std::vector<SuiteOverview> overview_of_suites();

}  // namespace sim
