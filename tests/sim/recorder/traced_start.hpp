// A start that is traced into files, and the CSV of them as numbers.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "files/temporary_folder.hpp"
#include "sim/scenario/scenario.hpp"

namespace sim_test {

/// Runs it; writes one trace for each name, in the format of its ending or the one asked for, into
/// `folder`. Everything of the part `line` and of `sequence` is watched, if there is a controller.
void trace_start(const sim::Scenario& scenario, const TemporaryFolder& folder,
                 const std::vector<std::string>& names, const std::string& format = "");

/// Columns by name, as text.
struct CsvColumns {
    explicit CsvColumns(const std::string& text);
    double number(const std::string& name, std::size_t row) const {
        return std::stod(columns.at(name).at(row));
    }
    std::vector<std::string> names;
    std::map<std::string, std::vector<std::string>> columns;
    std::size_t rows = 0;
};

/// At the separators; an empty text has one empty piece.
std::vector<std::string> split(const std::string& text, char separator);

}  // namespace sim_test
