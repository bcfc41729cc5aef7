// How numbers are spread, as data: small histograms beside one another, drawn without a program, so
// that they are there on paper and without scripts.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace sim {

struct Histogram {
    std::string title;
    std::string words;  ///< below it: what the picture shows, in numbers
    double from = 0.0;  ///< left edge of the first bar
    double width = 0.0;
    /// Those below stand on the axis, the others upon them, as outlines.
    struct Bar {
        std::int64_t below = 0;
        std::int64_t above = 0;
    };
    std::vector<Bar> bars;
};

struct Histograms {
    std::string below_name;  ///< "passed"
    std::string above_name;  ///< "did not pass"
    std::vector<Histogram> histograms;
};

}  // namespace sim
