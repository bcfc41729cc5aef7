#include "sim/reporting/campaign_summary.hpp"

#include <algorithm>
#include <limits>
#include <map>
#include <set>
#include <string>
#include <tuple>

#include "sim/regression/start_failures.hpp"

namespace sim {

namespace {

SideRates rates_of_side(const CampaignResults& results, const MatrixSide& side) {
    SideRates found{side.name, {}};
    std::map<std::string, std::size_t> place;
    for (const CaseRecord& one : results.cases) {
        const std::string& name = one.place.*side.member;
        const auto [at, is_new] = place.try_emplace(name, found.rates.size());
        if (is_new) {
            found.rates.push_back({name, {}});
        }
        SuccessRate& rate = found.rates[at->second].cases;
        ++rate.trials;
        rate.successes += one.passed() ? 1 : 0;
    }
    return found;
}

std::vector<BrokenCount> broken_counts(const CampaignResults& results) {
    std::vector<BrokenCount> counts;
    std::map<std::string, std::size_t> place;
    std::map<std::string, std::int64_t> last_case;
    for (const CaseRecord& one : results.cases) {
        for (const StartRow& start : one.starts) {
            for (const BrokenRequirement& broken : start.broken) {
                const auto [at, is_new] = place.try_emplace(broken.requirement, counts.size());
                if (is_new) {
                    counts.push_back({broken.requirement, 0, 0, &one, broken.words});
                }
                BrokenCount& count = counts[at->second];
                ++count.starts;
                const auto [seen, first] = last_case.try_emplace(broken.requirement, one.id);
                count.cases += first || seen->second != one.id ? 1 : 0;
                seen->second = one.id;
            }
        }
    }
    std::stable_sort(counts.begin(), counts.end(), [](const BrokenCount& a, const BrokenCount& b) {
        return a.starts > b.starts;
    });
    return counts;
}

bool begins(const std::string& text, const char* with) {
    return text.rfind(with, 0) == 0;
}

int severity(const StartRow& start) {
    enum : int { limit = 1, outcome, no_result, monitor };
    int worst = 0;
    for (const BrokenRequirement& one : start.broken) {
        int here = limit;
        if (begins(one.requirement, "monitor:")) {
            here = monitor;
        } else if (one.requirement == "outcome") {
            here = outcome;
        }
        worst = std::max(worst, here);
    }
    return std::max(worst, has_no_result(start) ? static_cast<int>(no_result) : 0);
}

}  // namespace

namespace {

/// In the same order, the first of every place before any second one: ten draws of one cell tell
/// less than one of each of ten.
std::vector<WorstStart> spread_over_places(const std::vector<WorstStart>& starts,
                                           std::size_t most) {
    std::set<std::string> seen;
    std::vector<bool> is_chosen;
    std::size_t count = 0;
    for (const WorstStart& one : starts) {
        const CasePlace& place = one.in_case->place;
        is_chosen.push_back(count < most &&
                            seen.insert(place.block + "\n" + place_words(place)).second);
        count += is_chosen.back() ? 1 : 0;
    }
    std::vector<WorstStart> chosen;
    for (std::size_t k = 0; k < starts.size(); ++k) {
        if (!is_chosen[k] && count < most) {
            is_chosen[k] = true;
            ++count;
        }
        if (is_chosen[k]) {
            chosen.push_back(starts[k]);
        }
    }
    return chosen;
}

}  // namespace

std::vector<WorstStart> worst_starts(const CampaignResults& results, std::size_t most) {
    std::vector<WorstStart> failed;
    for (const CaseRecord& one : results.cases) {
        for (const StartRow& start : one.starts) {
            if (!start.passed) {
                failed.push_back({&one, &start});
            }
        }
    }
    const std::optional<std::size_t> hottest = results.place_of("hottest_winding_C");
    const auto heat_C = [&hottest](const StartRow& start) {
        const std::optional<double> value = hottest ? figure_of(start, *hottest) : std::nullopt;
        return value.value_or(std::numeric_limits<double>::lowest());
    };
    const auto is_worse = [&heat_C](const WorstStart& a, const WorstStart& b) {
        const auto key = [&heat_C](const WorstStart& one) {
            return std::make_tuple(severity(*one.start), one.start->broken.size(),
                                   heat_C(*one.start));
        };
        return key(a) > key(b);
    };
    std::stable_sort(failed.begin(), failed.end(), is_worse);
    return failed.size() > most ? spread_over_places(failed, most) : failed;
}

CampaignSummary summary_of(const CampaignResults& results) {
    CampaignSummary summary;
    for (const CaseRecord& one : results.cases) {
        ++summary.cases.trials;
        summary.cases.successes += one.passed() ? 1 : 0;
    }
    summary.starts = results.start_count();
    summary.starts_passed = results.passed_start_count();
    for (const MatrixSide& side : matrix_sides()) {
        SideRates rates = rates_of_side(results, side);
        if (rates.rates.size() > 1) {
            summary.sides.push_back(std::move(rates));
        }
    }
    summary.broken = broken_counts(results);
    constexpr std::size_t most_shown = 10;
    summary.worst = worst_starts(results, most_shown);
    return summary;
}

}  // namespace sim
