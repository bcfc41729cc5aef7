// Which changes bring a start up together where none does alone.
//
// All pairs at their boldest; of those that come up, how far both have to go, in the same share of
// their ways. Where no pair is enough, everything at once, and of that what cannot be left out.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/campaigns/parallel_cases.hpp"
#include "sim/explaining/threshold_search.hpp"

namespace sim {

struct ChangedTogether {
    struct Part {
        Change change;
        double value = 0.0;
    };
    std::vector<Part> parts;
    /// Of each way, the smallest share that was found to be enough; 1: the boldest.
    double share = 1.0;
};

struct TogetherSearch {
    int pairs_tried = 0;
    std::vector<ChangedTogether> pairs;  ///< those that come up, the shortest ways first
    /// Where no pair comes up: a set from which nothing can be left out. None if not even all
    /// changes together are enough.
    std::optional<ChangedTogether> minimal_set;
    int reruns = 0;
};

/// What the search reports and asks: pieces of work done, and whether to stop.
struct SearchControl {
    int threads = 1;
    std::function<void(int done, int of)> progress;  ///< called from one thread at a time
    Interrupted interrupted;

    /// For the workers. They are not stopped: each piece asks for itself, and ends with what it
    /// has.
    CampaignProgress reported() const {
        return [this](int done, int of) {
            if (progress) {
                progress(done, of);
            }
            return true;
        };
    }
};

/// None if it was interrupted. `changes`: those that do not suffice alone. Throws NumericFailure.
std::optional<TogetherSearch> search_together(const Scenario& scenario,
                                              const std::vector<Change>& changes,
                                              const SearchControl& control);

}  // namespace sim
