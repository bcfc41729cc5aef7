// A course of values as one line of block characters, for terminals.
#pragma once

#include <string>
#include <vector>

namespace sim {

struct TimedValue {
    double time_s = 0.0;
    double value = 0.0;
};

/// `width` characters from time 0 to `span_s`; each shows the largest value in its share of the
/// time, between 0 (blank) and `full_scale` (a full block). A value above half a percent of that is
/// never blank; where all values lie more than a twentieth below zero, a dash stands.
std::string text_chart(const std::vector<TimedValue>& values, double span_s, double full_scale,
                       int width);

}  // namespace sim
