// The same cases of two campaigns, side by side.
//
// A case of the new results is the same as one of the old if number, place in the matrix (but for
// the setting, which may be what is compared), seed and every drawn input are equal, to the bit.
// Builds, settings and scenarios may differ: that is what a comparison is for.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/reporting/campaign_results.hpp"

namespace sim {

struct StartPair {
    const StartRow* old_start = nullptr;
    const StartRow* new_start = nullptr;
};

struct CasePair {
    const CaseRecord* old_case = nullptr;
    const CaseRecord* new_case = nullptr;
    std::vector<StartPair> starts;  ///< those that both have; never empty

    bool newly_fails() const { return old_case->passed() && !new_case->passed(); }
};

struct CasePairs {
    std::vector<CasePair> pairs;  ///< by id
    std::int64_t only_old = 0;
    std::int64_t only_new = 0;
    std::int64_t other_place = 0;      ///< the number stands for something else now
    std::int64_t other_inputs = 0;     ///< other seed or drawn inputs
    std::int64_t other_settings = 0;   ///< paired, but with other settings
    std::int64_t other_scenario = 0;   ///< paired, but of another scenario
    std::int64_t unpaired_starts = 0;  ///< of paired cases: starts that only one of them has
};

/// Both must outlive the result, which points into them.
CasePairs paired_cases(const CampaignResults& old_results, const CampaignResults& new_results);

}  // namespace sim
