// A table whose cells are coloured by their number, as data: the deeper the colour, the worse. The
// number stands in every cell, so nothing is in the colour alone; the steps differ in lightness,
// which every eye and a printer without colours can tell.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace sim {

struct HeatCell {
    std::optional<double> value;  ///< none: the cell is empty
    std::string text;             ///< the number as it is shown
    std::string detail;           ///< below it, smaller; may be empty
};

/// Which end of the numbers has the deepest colour.
enum class Deepest { highest, lowest };

struct HeatMap {
    std::string caption;
    std::string unit;  ///< of the scale below the table
    std::string row_name;
    std::string column_name;
    std::vector<std::string> rows;
    std::vector<std::string> columns;
    std::vector<std::vector<HeatCell>> cells;  ///< row by row
    Deepest deepest = Deepest::highest;
    /// Ends of the scale where they are not those of the cells.
    std::optional<double> scale_from;
    std::optional<double> scale_to;
};

}  // namespace sim
