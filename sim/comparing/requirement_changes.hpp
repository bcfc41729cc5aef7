// The verdicts of pairs of cases, requirement by requirement, before the correction for many tests.
#pragma once

#include <string>
#include <vector>

#include "sim/comparing/comparison.hpp"

namespace sim {

/// "passed" and "result" first, then everything that any start of `pairs` broke, by name.
std::vector<RequirementChange> requirement_changes(const std::vector<const CasePair*>& pairs,
                                                   const std::string& block);

/// Once `adjusted_p` is known.
Change judged(const RequirementChange& one, const ComparisonRules& rules);

}  // namespace sim
