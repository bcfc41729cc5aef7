#include "sim/statistics/holm.hpp"

#include <algorithm>
#include <cstddef>
#include <numeric>

namespace sim {

std::vector<double> holm_adjusted(const std::vector<double>& p_values) {
    std::vector<std::size_t> order(p_values.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&p_values](std::size_t a, std::size_t b) {
        return p_values[a] < p_values[b];
    });
    std::vector<double> adjusted(p_values.size());
    double least = 0.0;
    for (std::size_t k = 0; k < order.size(); ++k) {
        const auto still_open = static_cast<double>(order.size() - k);
        least = std::max(least, std::min(1.0, still_open * p_values[order[k]]));
        adjusted[order[k]] = least;
    }
    return adjusted;
}

}  // namespace sim
