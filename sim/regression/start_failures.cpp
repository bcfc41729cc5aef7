#include "sim/regression/start_failures.hpp"

#include <algorithm>

namespace sim {

bool has_no_result(const StartRow& start) {
    return start.outcome == outcome_crashed || start.outcome == outcome_hung ||
           start.outcome == outcome_run_failed || start.outcome == outcome_bad_input;
}

bool ended_otherwise(const StartRow& start) {
    return has_no_result(start) ||
           std::any_of(start.broken.begin(), start.broken.end(),
                       [](const BrokenRequirement& one) { return one.requirement == "outcome"; });
}

bool only_counts_against_rate(const StartRow& start) {
    return !start.passed && !has_no_result(start) && start.broken.size() == 1 &&
           ended_otherwise(start);
}

}  // namespace sim
