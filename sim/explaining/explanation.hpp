// Why a start ended as it did, and what would have made it end otherwise.
//
// The start is run once and watched (the story); then reruns with one thing changed at a time prove
// what made it fail, or how much it can bear. Where nothing suffices alone, changes are taken
// together.
//
// The same scenario gives the same explanation at any number of threads.
#pragma once

#include <optional>
#include <vector>

#include "sim/bench/start_result.hpp"
#include "sim/explaining/pair_search.hpp"
#include "sim/explaining/story.hpp"
#include "sim/explaining/threshold_search.hpp"

namespace sim {

struct Explanation {
    StartResult start;
    bool comes_up = false;  ///< see sim/explaining/trial.hpp
    Story story;
    /// Remedies if it fails, strains if it comes up; in the order of their list. Where the search
    /// was interrupted, those that were finished.
    std::vector<WayOfChange> ways;
    int ways_not_tried = 0;  ///< because of an interruption
    /// Only where it fails and no single change suffices.
    std::optional<TogetherSearch> together;
    Fineness fineness;
    int reruns = 0;
    bool was_interrupted = false;
};

/// Throws NumericFailure. `control.interrupted` and `control.progress` may be empty.
Explanation explain(const Scenario& scenario, const SearchControl& control);

}  // namespace sim
