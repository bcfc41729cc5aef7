// Cases sorted into a grid by two sides of the matrix: compressors by supplies, and the like.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "sim/reporting/campaign_results.hpp"
#include "sim/statistics/success_rate.hpp"

namespace sim {

struct CaseGrid {
    MatrixSide row_side{};
    MatrixSide column_side{};
    std::vector<std::string> rows;  ///< in the order of the suite
    std::vector<std::string> columns;
    /// Row by row; empty where the suite has no such case.
    std::vector<std::vector<std::vector<const CaseRecord*>>> cells;
};

/// `results` must outlive the grid, which points into it. `setting`: only cases of this one.
CaseGrid case_grid(const CampaignResults& results, const MatrixSide& rows,
                   const MatrixSide& columns,
                   const std::optional<std::string>& setting = std::nullopt);

/// The grid in parts that share neither rows nor columns, as compressors and supplies of two
/// voltages do, so that none is mostly empty. Whole if it falls into more than `most_parts`: a
/// sparse campaign would be crumbs.
std::vector<CaseGrid> separate_parts(CaseGrid grid, std::size_t most_parts);

SuccessRate success_of(const std::vector<const CaseRecord*>& cases);

/// Over all starts of the cases that have the figure at `place`; none if none has.
std::optional<double> median_figure(const std::vector<const CaseRecord*>& cases, std::size_t place);

}  // namespace sim
