#include "sim/results/fault_campaign_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>
#include <vector>

#include "sim/results/spaced_word.hpp"

namespace sim {

namespace {

std::string where(const WorstCase& worst) {
    return fmt::format("{}, fault at {:.3f} s", worst.unit, worst.at_s);
}

template <class Count>
std::string counted(Count count, std::string_view what) {
    return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

std::string block(const FaultCampaignRow& row) {
    std::string text = fmt::format("{}\n", row.fault);
    std::vector<std::pair<std::string, int>> outcomes(row.outcomes.begin(), row.outcomes.end());
    std::stable_sort(outcomes.begin(), outcomes.end(),
                     [](const auto& a, const auto& b) { return a.second > b.second; });
    for (const auto& [outcome, count] : outcomes) {
        text += fmt::format("  {:5} of {}  {}\n", count, row.runs, spaced(outcome));
    }
    for (const auto& [monitor, count] : row.monitors) {
        text += fmt::format("  BROKEN {} in {} of {}, as {}\n", monitor, count, row.runs,
                            where(row.where_broken.at(monitor)));
    }
    if (row.let_go > 0) {
        text += fmt::format("  let go in {} of {}, at the latest {:.3f} s after the fault ({})\n",
                            row.let_go, row.runs, row.slowest_reaction_s.value,
                            where(row.slowest_reaction_s));
    }
    text += fmt::format("  hottest winding {:.0f} C ({})\n", row.hottest_winding_C.value,
                        where(row.hottest_winding_C));
    return text;
}

}  // namespace

std::string fault_campaign_text(const CampaignResult& result) {
    std::string text;
    WorstCase closure;
    for (const FaultCampaignRow& row : result.rows) {
        text += block(row) + "\n";
        if (closure.unit.empty() || row.worst_closure.value > closure.value) {
            closure = row.worst_closure;
        }
    }
    text += fmt::format("Energy closes within {:.1e} in every run (worst: {}).\n", closure.value,
                        where(closure));
    return text + fault_campaign_verdict(result);
}

std::string fault_campaign_verdict(const CampaignResult& result) {
    return fmt::format("{}, {}, {}, {}: {} with a broken monitor\n",
                       counted(result.rows.size(), "fault"), counted(result.units.size(), "unit"),
                       counted(result.instants, "instant"), counted(result.runs, "start"),
                       result.runs_with_broken_monitors);
}

}  // namespace sim
