#include "sim/reporting/case_grid.hpp"

#include <boost/pending/disjoint_sets.hpp>
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

struct Part {
    std::vector<std::size_t> rows;
    std::vector<std::size_t> columns;
};

/// Every row belongs to one part, and every column; in the order of the suite.
std::vector<Part> parts_of(const CaseGrid& grid) {
    const std::size_t first_column = grid.rows.size();
    boost::disjoint_sets_with_storage<> met(first_column + grid.columns.size());
    for (std::size_t row = 0; row < grid.rows.size(); ++row) {
        for (std::size_t column = 0; column < grid.columns.size(); ++column) {
            if (!grid.cells[row][column].empty()) {
                met.union_set(row, first_column + column);
            }
        }
    }
    std::map<std::size_t, std::size_t> place_of_set;
    std::vector<Part> parts;
    const auto part_with = [&](std::size_t member) -> Part& {
        const auto [at, is_new] = place_of_set.try_emplace(met.find_set(member), parts.size());
        return is_new ? parts.emplace_back() : parts[at->second];
    };
    for (std::size_t row = 0; row < grid.rows.size(); ++row) {
        part_with(row).rows.push_back(row);
    }
    for (std::size_t column = 0; column < grid.columns.size(); ++column) {
        part_with(first_column + column).columns.push_back(column);
    }
    return parts;
}

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

std::vector<CaseGrid> separate_parts(CaseGrid grid, std::size_t most_parts) {
    const std::vector<Part> parts = parts_of(grid);
    std::vector<CaseGrid> grids;
    if (parts.size() > most_parts) {
        grids.push_back(std::move(grid));
        return grids;
    }
    for (const Part& part : parts) {
        CaseGrid& one = grids.emplace_back();
        one.row_side = grid.row_side;
        one.column_side = grid.column_side;
        for (const std::size_t column : part.columns) {
            one.columns.push_back(grid.columns[column]);
        }
        for (const std::size_t row : part.rows) {
            one.rows.push_back(grid.rows[row]);
            auto& cells = one.cells.emplace_back();
            for (const std::size_t column : part.columns) {
                cells.push_back(std::move(grid.cells[row][column]));
            }
        }
    }
    return grids;
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
