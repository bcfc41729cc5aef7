// What a campaign came to, in memory: everything that reports and comparisons read of a results
// file.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "sim/regression/case_record.hpp"
#include "sim/suites/suite.hpp"

namespace sim {

struct CampaignResults {
    CampaignRow campaign;
    std::vector<std::string> figures;    ///< what StartRow::figures holds
    std::vector<CaseRecord> cases;       ///< by id
    std::vector<RateRequirement> rates;  ///< none until judge_by_suite()
    /// What --case takes before the "#": a file of results, or a bundled suite.
    std::string rerun_from;

    std::int64_t start_count() const;
    std::int64_t passed_start_count() const;
    /// None if the results have no such figure.
    std::optional<std::size_t> place_of(const std::string& figure) const;
};

/// Throws InputError for a file that is missing or holds no results.
CampaignResults read_campaign(const std::string& path);

/// Reads the suite in the results again: the rates that its blocks answer for, and whether it is a
/// bundled one that cases can be run from by its name. Throws InputError if the suite is not one
/// that this program can read.
void judge_by_suite(CampaignResults& results);

/// The start's value of the figure at `place`; none if it has none.
std::optional<double> figure_of(const StartRow& start, std::size_t place);

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
std::string rerun_command(const CampaignResults& results, const CaseRecord& one);

}  // namespace sim
