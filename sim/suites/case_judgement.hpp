// Whether a start of a case was as the suite wants it: one judgement for the campaign, for the
// rerun of a single case, and for every report.
#pragma once

#include <string>
#include <vector>

#include "sim/bench/start_result.hpp"
#include "sim/suites/suite.hpp"

namespace sim {

struct BrokenRequirement {
    std::string requirement;  ///< "outcome", "monitor:NAME" or "limit:FIGURE"
    std::string words;        ///< one sentence without a full stop
};

/// Empty if the start passed. At most one of each requirement: outcome first, then monitors, then
/// limits, each in the order of the start and the case. A monitor counts where there is a
/// controller to blame. A limit on a figure that the start does not have is held: whoever wants the
/// figure to exist says so by the outcome.
std::vector<BrokenRequirement> broken_requirements(const SuiteCase& one, const StartResult& start);

/// The accepted outcomes, as in a table of results: "running", "resting or locked_out".
std::string expected_words(const SuiteCase& one);

}  // namespace sim
