// What a campaign came to, in memory: everything that reports and comparisons read of a results
// file. One row a start; the starts of a case follow one another.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "sim/suites/suite.hpp"

namespace sim {

struct CampaignIdentity {
    std::string suite;
    std::string title;
    std::string suite_hash;
    std::string build;
    std::int64_t cases = 0;  ///< of the whole suite
    std::int64_t shard_index = 1;
    std::int64_t shard_total = 1;
    bool finished = false;
};

/// Why a start did not pass.
struct BrokenRequirement {
    std::string requirement;  ///< "outcome", "monitor:NAME" or "limit:FIGURE"
    std::string words;
};

struct ReportedStart {
    std::int64_t start = 1;  ///< within its case, from 1
    std::string outcome;
    std::string cause;
    std::string expected;
    bool passed = false;
    std::vector<std::optional<double>> figures;  ///< one for each of CampaignResults::figures
    std::vector<BrokenRequirement> broken;

    /// Ended without a result of its own: crashed, hung, a run that failed, input that was refused.
    bool has_no_result() const;
};

struct ReportedCase {
    std::int64_t id = 0;
    CasePlace place;
    std::uint32_t seed = 0;
    std::string scenario_hash;
    std::string settings_hash;
    std::vector<DrawnInput> inputs;  ///< by name
    std::vector<ReportedStart> starts;

    bool passed() const;  ///< every start did
};

struct CampaignResults {
    CampaignIdentity identity;
    std::vector<std::string> figures;  ///< names, as in figure_list()
    std::vector<ReportedCase> cases;   ///< by id

    std::int64_t start_count() const;
    std::int64_t passed_start_count() const;
    /// None if the results have no such figure.
    std::optional<std::size_t> figure_index(const std::string& name) const;
};

/// A side of the matrix.
struct MatrixSide {
    const char* name;  ///< "compressor"
    std::string CasePlace::*member;
};

/// block, compressor, supply, condition, fault, setting.
const std::vector<MatrixSide>& matrix_sides();

/// The sides that a case has, in a few words: "cold_room on house_grid, hot".
std::string place_words(const CasePlace& place);

/// What runs this case again, to the bit.
std::string rerun_command(const CampaignIdentity& identity, std::int64_t case_id);

}  // namespace sim
