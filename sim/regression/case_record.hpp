// What is kept of one case of a campaign: the rows of the results file (RESULTS.md), as structs.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/suites/case_judgement.hpp"
#include "sim/suites/suite.hpp"

namespace sim {

/// The one row about the campaign as a whole.
struct CampaignRow {
    int schema = 0;
    std::string suite;
    std::string title;
    std::string suite_text;  ///< Suite::text(): rerunning any case needs nothing else
    std::string suite_hash;
    std::string build;       ///< build_identity() of the program that ran it
    std::int64_t cases = 0;  ///< of the whole suite
    int shard_index = 1;     ///< from 1
    int shard_total = 1;
    bool finished = false;
};

struct StartRow {
    int start = 1;  ///< within its case
    /// A word of outcome_words(), or of the four below.
    std::string outcome;
    std::string cause;
    std::string expected;  ///< expected_words()
    bool passed = false;
    /// In the order of the file's columns; fewer than those: the others do not exist.
    std::vector<std::optional<double>> figures;
    std::vector<BrokenRequirement> broken;  ///< by rising requirement
};

/// Outcomes of a start that no simulation ended with.
inline constexpr std::string_view outcome_crashed = "crashed";  ///< cause: the signal's name
inline constexpr std::string_view outcome_hung = "hung";        ///< out of its processor time
inline constexpr std::string_view outcome_run_failed =
    "run_failed";  ///< the equations gave no answer
inline constexpr std::string_view outcome_bad_input =
    "bad_input";  ///< the case left a table's bounds

struct CaseRecord {
    std::int64_t id = 0;
    CasePlace place;
    std::uint32_t seed = 0;
    std::string scenario_hash;
    std::string settings_hash;
    std::vector<DrawnInput> inputs;  ///< by rising name
    std::vector<StartRow> starts;    ///< by rising number; never empty

    /// A series counts once: its starts are not independent of each other.
    bool passed() const {
        for (const StartRow& row : starts) {
            if (!row.passed) {
                return false;
            }
        }
        return true;
    }
};

}  // namespace sim
