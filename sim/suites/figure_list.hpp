// The figures by which a start is judged, one list for limits in a suite, columns of the results,
// comparison and pages. A figure that a start does not have is empty, never 0.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "sim/bench/start_result.hpp"

namespace sim {

/// Which way a figure gets better, if everything else stays.
enum class Better { lower, higher, neither };

struct Figure {
    std::string_view name;  ///< ends in its unit; column and key
    std::string_view meaning;
    Better better = Better::neither;
    std::optional<double> (*value)(const StartResult&) = nullptr;
};

/// In a fixed order; new ones go to the end.
const std::vector<Figure>& figure_list();

/// Null if `name` is not in the list.
const Figure* figure_named(std::string_view name);

}  // namespace sim
