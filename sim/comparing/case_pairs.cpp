#include "sim/comparing/case_pairs.hpp"

#include <algorithm>
#include <cstdint>

#include "sim/comparing/same_bits.hpp"

namespace sim {

namespace {

bool same_place(const CasePlace& a, const CasePlace& b) {
    return a.block == b.block && a.compressor == b.compressor && a.supply == b.supply &&
           a.condition == b.condition && a.fault == b.fault;
}

bool same_inputs(const CaseRecord& a, const CaseRecord& b) {
    return a.seed == b.seed &&
           std::equal(a.inputs.begin(), a.inputs.end(), b.inputs.begin(), b.inputs.end(),
                      [](const DrawnInput& one, const DrawnInput& other) {
                          return one.name == other.name && same_bits(one.value, other.value);
                      });
}

/// Both by rising number.
std::vector<StartPair> paired_starts(const CaseRecord& old_case, const CaseRecord& new_case,
                                     std::int64_t& unpaired) {
    std::vector<StartPair> pairs;
    auto old_at = old_case.starts.begin();
    auto new_at = new_case.starts.begin();
    while (old_at != old_case.starts.end() && new_at != new_case.starts.end()) {
        if (old_at->start == new_at->start) {
            pairs.push_back({&*old_at++, &*new_at++});
            continue;
        }
        ++unpaired;
        if (old_at->start < new_at->start) {
            ++old_at;
        } else {
            ++new_at;
        }
    }
    unpaired += (old_case.starts.end() - old_at) + (new_case.starts.end() - new_at);
    return pairs;
}

void pair_up(const CaseRecord& old_case, const CaseRecord& new_case, CasePairs& found) {
    if (!same_place(old_case.place, new_case.place)) {
        ++found.other_place;
        return;
    }
    if (!same_inputs(old_case, new_case)) {
        ++found.other_inputs;
        return;
    }
    CasePair pair{&old_case, &new_case, paired_starts(old_case, new_case, found.unpaired_starts)};
    if (pair.starts.empty()) {
        return;
    }
    found.other_settings += old_case.settings_hash == new_case.settings_hash ? 0 : 1;
    found.other_scenario += old_case.scenario_hash == new_case.scenario_hash ? 0 : 1;
    found.pairs.push_back(std::move(pair));
}

}  // namespace

CasePairs paired_cases(const CampaignResults& old_results, const CampaignResults& new_results) {
    CasePairs found;
    auto old_at = old_results.cases.begin();
    auto new_at = new_results.cases.begin();
    while (old_at != old_results.cases.end() && new_at != new_results.cases.end()) {
        if (old_at->id < new_at->id) {
            ++found.only_old;
            ++old_at;
        } else if (new_at->id < old_at->id) {
            ++found.only_new;
            ++new_at;
        } else {
            pair_up(*old_at++, *new_at++, found);
        }
    }
    found.only_old += old_results.cases.end() - old_at;
    found.only_new += new_results.cases.end() - new_at;
    return found;
}

}  // namespace sim
