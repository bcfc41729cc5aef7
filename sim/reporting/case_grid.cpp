#include "sim/reporting/case_grid.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "sim/statistics/median_interval.hpp"

namespace sim {

namespace {

/// Numbers names in the order in which they come.
class Numbering {
  public:
    std::size_t of(const std::string& name) {
        const auto [at, is_new] = place_.try_emplace(name, names_.size());
        if (is_new) {
            names_.push_back(name);
        }
        return at->second;
    }
    std::vector<std::string> take() { return std::move(names_); }

  private:
    std::map<std::string, std::size_t> place_;
    std::vector<std::string> names_;
};

}  // namespace

CaseGrid case_grid(const CampaignResults& results, const MatrixSide& rows,
                   const MatrixSide& columns, const std::optional<std::string>& setting) {
    Numbering row_names;
    Numbering column_names;
    std::map<std::pair<std::size_t, std::size_t>, std::vector<const CaseRecord*>> cells;
    for (const CaseRecord& one : results.cases) {
        if (setting && one.place.setting != *setting) {
            continue;
        }
        const std::size_t row = row_names.of(one.place.*rows.member);
        const std::size_t column = column_names.of(one.place.*columns.member);
        cells[{row, column}].push_back(&one);
    }
    CaseGrid grid{rows, columns, row_names.take(), column_names.take(), {}};
    grid.cells.resize(grid.rows.size());
    for (std::size_t row = 0; row < grid.rows.size(); ++row) {
        for (std::size_t column = 0; column < grid.columns.size(); ++column) {
            grid.cells[row].push_back(std::move(cells[{row, column}]));
        }
    }
    return grid;
}

SuccessRate success_of(const std::vector<const CaseRecord*>& cases) {
    SuccessRate rate;
    for (const CaseRecord* one : cases) {
        ++rate.trials;
        rate.successes += one->passed() ? 1 : 0;
    }
    return rate;
}

std::optional<double> median_figure(const std::vector<const CaseRecord*>& cases,
                                    std::size_t place) {
    std::vector<double> values;
    for (const CaseRecord* one : cases) {
        for (const StartRow& start : one->starts) {
            if (const std::optional<double> value = figure_of(start, place)) {
                values.push_back(*value);
            }
        }
    }
    const auto median = median_with_interval(std::move(values));
    return median ? std::optional<double>(median->median) : std::nullopt;
}

}  // namespace sim
