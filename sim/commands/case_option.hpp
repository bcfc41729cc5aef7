// What a verb runs: a scenario file, or a single case of a suite (--case SUITE#ID).
#pragma once

#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "sim/bench/start_result.hpp"
#include "sim/suites/suite.hpp"

namespace sim {

struct CaseOption {
    std::string file;
    std::string suite_case;
};

/// Adds FILE and --case, of which exactly one is asked for.
void add_case_option(CLI::App& verb, CaseOption& option);

struct ChosenScenario {
    Scenario scenario;
    std::string suite;             ///< as it was named; empty for a scenario file
    std::optional<SuiteCase> one;  ///< none for a scenario file
};

/// Reads the scenario, or the case from a suite's file, a bundled suite, or a file of results.
/// Throws InputError; also for a series where `takes_series` is false, and for a single start where
/// it is true.
ChosenScenario chosen_scenario(const CaseOption& option, bool takes_series);

/// Judges the start as the suite does: sets what is expected of it. Without a case it is left as it
/// is.
void judge_case(const ChosenScenario& chosen, StartResult& start);

/// The case's place, its luck, and what is not as the suite wants it: lines of text, and an object
/// for JSON. Empty without a case.
std::string case_lines(const ChosenScenario& chosen, const std::vector<StartResult>& starts);
nlohmann::ordered_json case_json(const ChosenScenario& chosen,
                                 const std::vector<StartResult>& starts);

}  // namespace sim
