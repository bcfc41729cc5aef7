// Two campaigns over the same cases: what got better, what got worse, and what is noise.
//
// A simulation repeats to the bit, so within a pair there is no noise: whatever differs, the change
// did. What is left to chance is which cases were drawn. "Noise" therefore means: some cases went
// up and others down, in such a way that these draws cannot tell which way all others would go.
//
//   unit        the case. The starts of one series are not independent: of a requirement, a case
//   holds
//               it if all of its starts do; of a figure it counts with the mean over its starts
//   figures     a case whose figure moved by less than `least_change` of itself did not move (0.1
//   %:
//               engineering judgement). Those that moved go through the signed-rank test
//   requirements  cases whose verdict changed go through McNemar's exact test
//   many tests  all p-values together are corrected by Holm's method; found is what stays under 5 %
//   safety      a monitor is not a rate: one case that newly breaks one is worse, without
//   statistics.
//               So is one that newly ends without a result
//
// Done for the whole suite and, if it has several, for each block.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "sim/comparing/case_pairs.hpp"
#include "sim/statistics/median_interval.hpp"
#include "sim/statistics/paired_rates.hpp"
#include "sim/statistics/signed_rank.hpp"
#include "sim/suites/figure_list.hpp"

namespace sim {

struct ComparisonRules {
    double least_change = 0.001;  ///< share of a figure below which it did not move
    double error = 0.05;          ///< risk that anything at all is found by chance
    bool strict = false;          ///< one case that newly fails is worse, however many newly pass
};

enum class Change {
    identical,  ///< the same bits in every pair
    same,       ///< no case moved, or no verdict changed
    better,
    worse,
    mixed,  ///< it leans one way by size and the other way by count: look into it. Counts as worse
    changed,  ///< it leans one way, but neither way is better
    /// Verdicts: changed both ways. Figures: moved both ways, or too few. These cases cannot tell
    /// which way the suite as a whole would go.
    noise,
};

std::string_view word_of(Change change);

struct RequirementChange {
    std::string block;        ///< empty: the whole suite
    std::string requirement;  ///< "passed", "result", or as BrokenRequirement names it
    PairedRates cases;
    std::vector<std::int64_t> newly_failed;  ///< numbers of the cases
    bool is_safety = false;                  ///< judged without statistics
    double p_value = 1.0;
    double adjusted_p = 1.0;
    Change change = Change::same;
};

struct FigureChange {
    std::string block;
    std::string figure;
    Better better = Better::neither;
    std::int64_t only_old = 0;  ///< cases of which only the old start has the figure
    std::int64_t only_new = 0;
    std::int64_t pairs = 0;
    std::int64_t identical = 0;  ///< of the pairs
    SignedRank moved;            ///< new less old; `zero` are those that did not move
    double old_median = 0.0;
    double new_median = 0.0;
    MedianInterval difference;  ///< over all pairs, those that did not move, too
    double adjusted_p = 1.0;
    Change change = Change::same;
};

struct Comparison {
    CasePairs pairs;
    std::vector<RequirementChange> requirements;  ///< the whole suite first, then block by block
    std::vector<FigureChange> figures;            ///< those that any pair has, likewise
    std::vector<std::string> figures_of_one;      ///< that only one of the files has

    bool anything_worse() const;
    bool all_identical() const;  ///< every figure of every pair, and every verdict
};

/// Both must outlive the result.
Comparison compared(const CampaignResults& old_results, const CampaignResults& new_results,
                    const ComparisonRules& rules);

}  // namespace sim
