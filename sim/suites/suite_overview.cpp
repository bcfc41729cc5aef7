#include "sim/suites/suite_overview.hpp"

#include "sim/suites/bundled_suites.hpp"
#include "sim/suites/suite_file.hpp"

namespace sim {

std::vector<SuiteOverview> overview_of_suites() {
    std::vector<SuiteOverview> suites;
    for (const LibraryEntry& entry : bundled_suites()) {
        suites.push_back({std::string(entry.name),
                          parse_suite_parts(entry.text, std::string(entry.file)).heading.title});
    }
    return suites;
}

}  // namespace sim
