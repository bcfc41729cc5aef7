#include "sim/regression/case_run.hpp"

#include <algorithm>
#include <exception>
#include <utility>

#include "sim/bench/start_run.hpp"
#include "sim/files/input_error.hpp"
#include "sim/regression/scenario_fingerprint.hpp"
#include "sim/suites/figure_list.hpp"
#include "sim/timeline/plant_run.hpp"

namespace sim {

namespace {

BegunCase beginning_of(const SuiteCase& one) {
    BegunCase begun;
    begun.record.id = one.id;
    begun.record.place = one.place;
    begun.record.seed = one.seed;
    begun.record.scenario_hash = scenario_fingerprint(one.scenario);
    begun.record.settings_hash = settings_fingerprint(one.scenario);
    begun.record.inputs = one.drawn;
    std::sort(begun.record.inputs.begin(), begun.record.inputs.end(),
              [](const DrawnInput& a, const DrawnInput& b) { return a.name < b.name; });
    begun.expected = expected_words(one);
    begun.simulated_s = one.scenario.run.duration_s * std::max(one.series.starts, 1);
    begun.holds_foreign_code = std::holds_alternative<LibraryLimiter>(one.scenario.limiter);
    return begun;
}

StartRow row_of(const SuiteCase& one, const StartResult& result, int number) {
    StartRow row;
    row.start = number;
    row.outcome = word_of(result.outcome);
    row.cause = result.cause;
    row.expected = expected_words(one);
    for (const Figure& figure : figure_list()) {
        row.figures.push_back(figure.value(result));
    }
    row.broken = broken_requirements(one, result);
    std::sort(row.broken.begin(), row.broken.end(),
              [](const BrokenRequirement& a, const BrokenRequirement& b) {
                  return a.requirement < b.requirement;
              });
    row.passed = row.broken.empty();
    return row;
}

std::vector<StartRow> starts_of(const SuiteCase& one) {
    if (one.series.starts <= 1) {
        return {row_of(one, run_start(one.scenario), 1)};
    }
    std::vector<StartRow> rows;
    for (const RepeatedStart& start : run_repeat(one.scenario, one.series).starts) {
        rows.push_back(row_of(one, start.start, static_cast<int>(rows.size()) + 1));
    }
    return rows;
}

}  // namespace

CaseRecord run_case(const Suite& suite, std::int64_t id,
                    const std::function<void(const BegunCase&)>& begun) {
    BegunCase beginning;
    beginning.record.id = id;
    const auto failed = [&beginning](std::string_view outcome, const char* cause,
                                     const std::exception& error) {
        return ended_without_result(std::move(beginning.record), outcome, cause, beginning.expected,
                                    error.what());
    };
    try {
        const SuiteCase one = suite.case_at(id);
        beginning = beginning_of(one);
        if (begun) {
            begun(beginning);
        }
        CaseRecord record = beginning.record;
        record.starts = starts_of(one);
        return record;
    } catch (const InputError& error) {
        return failed(outcome_bad_input, "input", error);
    } catch (const NumericFailure& error) {
        return failed(outcome_run_failed, "numbers", error);
    } catch (const std::exception& error) {
        return failed(outcome_run_failed, "exception", error);
    }
}

CaseRecord ended_without_result(CaseRecord begun, std::string_view outcome,
                                const std::string& cause, const std::string& expected,
                                const std::string& words) {
    StartRow row;
    row.outcome = outcome;
    row.cause = cause;
    row.expected = expected;
    row.broken = {{"outcome", words}};
    begun.starts = {std::move(row)};
    return begun;
}

}  // namespace sim
