#include "sim/comparing/requirement_changes.hpp"

#include <algorithm>
#include <functional>
#include <set>

#include "sim/regression/start_failures.hpp"

namespace sim {

namespace {

/// None: the start says nothing about it.
using Holds = std::function<std::optional<bool>(const StartRow&)>;

std::optional<bool> case_holds(const CasePair& pair, const StartRow* StartPair::*side,
                               const Holds& holds) {
    bool all = true;
    for (const StartPair& start : pair.starts) {
        const std::optional<bool> one = holds(*(start.*side));
        if (!one) {
            return std::nullopt;
        }
        all = all && *one;
    }
    return all;
}

RequirementChange change_of(const std::vector<const CasePair*>& pairs, const Holds& holds) {
    RequirementChange change;
    for (const CasePair* pair : pairs) {
        const auto old_holds = case_holds(*pair, &StartPair::old_start, holds);
        const auto new_holds = case_holds(*pair, &StartPair::new_start, holds);
        if (!old_holds || !new_holds) {
            continue;
        }
        change.cases.count(*old_holds, *new_holds);
        if (*old_holds && !*new_holds) {
            change.newly_failed.push_back(pair->new_case->id);
        }
    }
    change.p_value = change.cases.p_value();
    return change;
}

bool broke(const StartRow& start, const std::string& requirement) {
    return std::any_of(
        start.broken.begin(), start.broken.end(),
        [&requirement](const BrokenRequirement& one) { return one.requirement == requirement; });
}

std::set<std::string> broken_in(const std::vector<const CasePair*>& pairs) {
    std::set<std::string> names;
    for (const CasePair* pair : pairs) {
        for (const StartPair& start : pair->starts) {
            for (const StartRow* side : {start.old_start, start.new_start}) {
                for (const BrokenRequirement& one : side->broken) {
                    names.insert(one.requirement);
                }
            }
        }
    }
    return names;
}

Change direction(const RequirementChange& one) {
    return one.cases.newly_failed > one.cases.newly_passed ? Change::worse : Change::better;
}

}  // namespace

std::vector<RequirementChange> requirement_changes(const std::vector<const CasePair*>& pairs,
                                                   const std::string& block) {
    std::vector<RequirementChange> changes;
    const auto add = [&changes, &pairs, &block](const std::string& name, bool is_safety,
                                                const Holds& holds) {
        changes.push_back(change_of(pairs, holds));
        changes.back().block = block;
        changes.back().requirement = name;
        changes.back().is_safety = is_safety;
    };
    add("passed", false, [](const StartRow& start) { return start.passed; });
    add("result", true, [](const StartRow& start) { return !has_no_result(start); });
    for (const std::string& name : broken_in(pairs)) {
        const bool is_outcome = name == "outcome";
        add(name, name.rfind("monitor:", 0) == 0,
            [&name, is_outcome](const StartRow& start) -> std::optional<bool> {
                // A start without a result kept no limit and no monitor, nor did it break one.
                if (has_no_result(start) && !is_outcome) {
                    return std::nullopt;
                }
                return !broke(start, name) && !(is_outcome && has_no_result(start));
            });
    }
    return changes;
}

Change judged(const RequirementChange& one, const ComparisonRules& rules) {
    if (one.cases.newly_failed + one.cases.newly_passed == 0) {
        return Change::same;
    }
    if (one.cases.newly_failed > 0 && (one.is_safety || rules.strict)) {
        return Change::worse;
    }
    // Within a pair nothing is chance: where every verdict that changed went the same way, no draw
    // speaks for the other.
    const bool one_way = one.cases.newly_failed == 0 || one.cases.newly_passed == 0;
    if (one_way || one.adjusted_p < rules.error) {
        return direction(one);
    }
    return Change::noise;
}

}  // namespace sim
