#include "sim/suites/case_judgement.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/suites/figure_list.hpp"

namespace sim {

namespace {

void judge_outcome(const SuiteCase& one, const StartResult& start,
                   std::vector<BrokenRequirement>& broken) {
    if (std::find(one.accepted.begin(), one.accepted.end(), start.outcome) != one.accepted.end()) {
        return;
    }
    const std::string cause = start.cause.empty() ? "" : " (" + start.cause + ")";
    broken.push_back({"outcome", fmt::format("ended in {}{}; {} was expected",
                                             word_of(start.outcome), cause, expected_words(one))});
}

void judge_monitors(const StartResult& start, std::vector<BrokenRequirement>& broken) {
    if (!start.has_limiter) {
        return;
    }
    for (const NamedViolation& named : start.monitors) {
        const std::string requirement = "monitor:" + std::string(named.monitor);
        const bool known = std::any_of(
            broken.begin(), broken.end(),
            [&requirement](const auto& other) { return other.requirement == requirement; });
        if (!known) {
            const Violation& seen = named.violation;
            broken.push_back(
                {requirement, fmt::format("{:.4g} {} at {:.4f} s; {:.4g} is allowed", seen.seen,
                                          seen.unit, seen.time_s, seen.allowed)});
        }
    }
}

void judge_limits(const SuiteCase& one, const StartResult& start,
                  std::vector<BrokenRequirement>& broken) {
    for (const FigureLimit& limit : one.limits) {
        const Figure* figure = figure_named(limit.figure);
        const std::optional<double> value =
            figure != nullptr ? figure->value(start) : std::optional<double>();
        if (!value) {
            continue;
        }
        const std::string requirement = "limit:" + limit.figure;
        if (limit.lowest && !(*value >= *limit.lowest)) {
            broken.push_back(
                {requirement, fmt::format("{:.6g} is below {:.6g}", *value, *limit.lowest)});
        } else if (limit.highest && !(*value <= *limit.highest)) {
            broken.push_back(
                {requirement, fmt::format("{:.6g} is above {:.6g}", *value, *limit.highest)});
        }
    }
}

}  // namespace

std::vector<BrokenRequirement> broken_requirements(const SuiteCase& one, const StartResult& start) {
    std::vector<BrokenRequirement> broken;
    judge_outcome(one, start, broken);
    judge_monitors(start, broken);
    judge_limits(one, start, broken);
    return broken;
}

std::string expected_words(const SuiteCase& one) {
    std::string words;
    for (std::size_t k = 0; k < one.accepted.size(); ++k) {
        words += (k == 0                         ? ""
                  : k + 1 == one.accepted.size() ? " or "
                                                 : ", ") +
                 std::string(word_of(one.accepted[k]));
    }
    return words;
}

}  // namespace sim
