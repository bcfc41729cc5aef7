#include "sim/explaining/pair_search.hpp"

#include <algorithm>
#include <atomic>
#include <utility>

namespace sim {

namespace {

using Part = ChangedTogether::Part;

/// Shares of the way are told apart by this.
constexpr double share_resolution = 0.05;

Scenario with_all(const Scenario& scenario, const std::vector<Part>& parts) {
    Scenario changed = scenario;
    for (const Part& part : parts) {
        part.change.set(changed, part.value);
    }
    return changed;
}

bool has_between(const Change& change) {
    return change.spacing == Spacing::ratio || change.spacing == Spacing::difference;
}

std::vector<Part> parts_at(const std::vector<Part>& parts, double share) {
    std::vector<Part> at = parts;
    for (Part& part : at) {
        part.value = has_between(part.change) ? value_at(part.change, share) : part.change.boldest;
    }
    return at;
}

bool can_run(const Scenario& scenario, const std::vector<Part>& parts) {
    return problem_with(with_all(scenario, parts)).empty();
}

/// To its end: pairs are few, and what is said about them is then certain.
bool comes_up_with(const Scenario& scenario, const std::vector<Part>& parts,
                   std::atomic<int>& reruns) {
    ++reruns;
    return can_run(scenario, parts) &&
           try_start(with_all(scenario, parts), Patience::to_the_end).comes_up;
}

/// The smallest share of both ways that is enough; 1 is known to be.
ChangedTogether shortened(const Scenario& scenario, const std::vector<Part>& parts,
                          const Interrupted& interrupted, std::atomic<int>& reruns) {
    double enough = 1.0;
    double too_little = 0.0;
    const bool may_shorten = std::any_of(parts.begin(), parts.end(),
                                         [](const Part& part) { return has_between(part.change); });
    while (may_shorten && enough - too_little > share_resolution && !interrupted()) {
        const double middle = 0.5 * (enough + too_little);
        (comes_up_with(scenario, parts_at(parts, middle), reruns) ? enough : too_little) = middle;
    }
    return {parts_at(parts, enough), enough};
}

std::optional<ChangedTogether> minimal_set(const Scenario& scenario,
                                           const std::vector<Change>& changes,
                                           const Interrupted& interrupted,
                                           std::atomic<int>& reruns) {
    std::vector<Part> parts;
    for (const Change& change : changes) {
        const bool subject_is_taken =
            std::any_of(parts.begin(), parts.end(),
                        [&](const Part& part) { return part.change.subject == change.subject; });
        if (subject_is_taken) {
            continue;
        }
        parts.push_back({change, change.boldest});
        if (!can_run(scenario, parts)) {
            parts.pop_back();
        }
    }
    if (!comes_up_with(scenario, parts, reruns)) {
        return std::nullopt;
    }
    // From the least customary to the most.
    for (std::size_t k = parts.size(); k-- > 0 && !interrupted();) {
        std::vector<Part> fewer = parts;
        fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(k));
        if (comes_up_with(scenario, fewer, reruns)) {
            parts = std::move(fewer);
        }
    }
    return ChangedTogether{parts, 1.0};
}

}  // namespace

std::optional<TogetherSearch> search_together(const Scenario& scenario,
                                              const std::vector<Change>& changes,
                                              const SearchControl& control) {
    std::vector<std::vector<Part>> pairs;
    for (std::size_t a = 0; a < changes.size(); ++a) {
        for (std::size_t b = a + 1; b < changes.size(); ++b) {
            std::vector<Part> pair{{changes[a], changes[a].boldest},
                                   {changes[b], changes[b].boldest}};
            if (changes[a].subject != changes[b].subject && can_run(scenario, pair)) {
                pairs.push_back(std::move(pair));
            }
        }
    }
    std::vector<std::optional<ChangedTogether>> enough(pairs.size());
    std::atomic<int> reruns{0};
    run_cases(
        pairs.size(), control.threads,
        [&](std::size_t k) {
            if (!control.interrupted() && comes_up_with(scenario, pairs[k], reruns)) {
                enough[k] = shortened(scenario, pairs[k], control.interrupted, reruns);
            }
        },
        control.reported());
    TogetherSearch search;
    search.pairs_tried = static_cast<int>(pairs.size());
    for (std::optional<ChangedTogether>& pair : enough) {
        if (pair) {
            search.pairs.push_back(std::move(*pair));
        }
    }
    std::stable_sort(search.pairs.begin(), search.pairs.end(),
                     [](const ChangedTogether& one, const ChangedTogether& other) {
                         return one.share < other.share;
                     });
    if (search.pairs.empty() && !changes.empty() && !control.interrupted()) {
        search.minimal_set = minimal_set(scenario, changes, control.interrupted, reruns);
    }
    search.reruns = reruns;
    if (control.interrupted()) {
        return std::nullopt;
    }
    return search;
}

}  // namespace sim
