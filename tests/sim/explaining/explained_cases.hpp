// What the tests of explanations share: starts that fail for one reason or several.
#pragma once

#include <string>
#include <vector>

#include "sim/explaining/explanation.hpp"
#include "sim/scenario/scenario.hpp"

namespace sim_test {

/// A milk cooler that comes up through its limiter, with these faults from the beginning.
sim::Scenario milk_cooler_with_faults(const std::vector<std::string>& kinds);

/// The text of a bundled scenario with one line's value replaced, read anew: a way to a changed
/// scenario that knows nothing of the list of changes. The line must begin with `key` and " = ".
sim::Scenario bundled_with(const std::string& name, const std::string& key,
                           const std::string& value);

/// Of this name; the test fails if there is none.
const sim::WayOfChange& way_of(const sim::Explanation& explanation, const std::string& name);

sim::SearchControl with_threads(int threads);

}  // namespace sim_test
