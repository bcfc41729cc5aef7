#include "sim/statistics/midranks.hpp"

#include <algorithm>
#include <cstddef>
#include <numeric>

namespace sim {

namespace {

/// Calls `group(first, last, order)` for every run order[first..last) of equal values.
template <class Group>
void for_each_tie_group(const std::vector<double>& values, const Group& group) {
    std::vector<std::size_t> order(values.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(),
              [&values](std::size_t a, std::size_t b) { return values[a] < values[b]; });
    for (std::size_t first = 0; first < order.size();) {
        std::size_t last = first + 1;
        while (last < order.size() && values[order[last]] <= values[order[first]]) {
            ++last;
        }
        group(first, last, order);
        first = last;
    }
}

}  // namespace

std::vector<double> midranks(const std::vector<double>& values) {
    std::vector<double> ranks(values.size());
    for_each_tie_group(values, [&ranks](std::size_t first, std::size_t last,
                                        const std::vector<std::size_t>& order) {
        const double shared = 0.5 * static_cast<double>(first + 1 + last);
        for (std::size_t k = first; k < last; ++k) {
            ranks[order[k]] = shared;
        }
    });
    return ranks;
}

double tie_term(const std::vector<double>& values) {
    double sum = 0.0;
    for_each_tie_group(
        values, [&sum](std::size_t first, std::size_t last, const std::vector<std::size_t>&) {
            const auto size = static_cast<double>(last - first);
            sum += size * size * size - size;
        });
    return sum;
}

}  // namespace sim
