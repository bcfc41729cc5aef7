#include "sim/results/text_chart.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace sim {

namespace {
constexpr std::array<const char*, 9> blocks = {" ", "▁", "▂", "▃", "▄", "▅", "▆", "▇", "█"};
}

std::string text_chart(const std::vector<TimedValue>& values, double span_s, double full_scale,
                       int width) {
    std::vector<std::optional<double>> columns(static_cast<std::size_t>(width));
    for (const TimedValue& row : values) {
        // A value that stands for an interval belongs to the column in which the interval ends.
        const double position = row.time_s / span_s * width - 1e-9;
        if (position >= 0.0 && position < width) {
            std::optional<double>& column = columns[static_cast<std::size_t>(position)];
            column = std::max(column.value_or(row.value), row.value);
        }
    }
    std::string line;
    for (const std::optional<double>& column : columns) {
        const double value = column.value_or(0.0);
        if (value < -0.05 * full_scale) {
            line += '-';
            continue;
        }
        const double level = full_scale > 0.0 ? 8.0 * value / full_scale : 0.0;
        const bool blank = value <= 0.005 * full_scale;
        const int block = blank ? 0 : std::clamp(static_cast<int>(std::lround(level)), 1, 8);
        line += blocks[static_cast<std::size_t>(block)];
    }
    return line;
}

}  // namespace sim
