#include "sim/lessons/spelled_numbers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

namespace sim {

std::string amperes(const std::optional<double>& value) {
    return value ? fmt::format("{:.1f} A", *value) : "-";
}

std::string volts(const std::optional<double>& value) {
    return value ? fmt::format("{:.0f} V", *value) : "-";
}

std::string newton_metres(double value) {
    return fmt::format("{:.2f} N m", value);
}

std::string seconds(const std::optional<double>& value) {
    return value ? fmt::format("{:.2f} s", *value) : "-";
}

std::string percent(double share) {
    return fmt::format("{:.0f} %", 100.0 * share);
}

double value_at(const Trace& trace, double time_s) {
    const auto after = std::upper_bound(trace.time_s.begin(), trace.time_s.end(), time_s);
    return after == trace.time_s.begin()
               ? 0.0
               : trace.value.at(static_cast<std::size_t>(after - trace.time_s.begin()) - 1);
}

double time_above_s(const Trace& trace, double threshold) {
    double total_s = 0.0;
    for (std::size_t k = 1; k < trace.time_s.size(); ++k) {
        if (trace.value[k] > threshold) {
            total_s += trace.time_s[k] - trace.time_s[k - 1];
        }
    }
    return total_s;
}

}  // namespace sim
