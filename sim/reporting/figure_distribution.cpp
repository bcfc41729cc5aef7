#include "sim/reporting/figure_distribution.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "sim/statistics/median_interval.hpp"

namespace sim {

namespace {

struct Value {
    double value;
    bool passed;
};

/// The smallest of 1, 2 and 5 times a power of ten that is not less than `width`.
double round_width(double width) {
    const double decade = std::pow(10.0, std::floor(std::log10(width)));
    for (const double step : {1.0, 2.0, 5.0}) {
        if (step * decade >= width) {
            return step * decade;
        }
    }
    return 10.0 * decade;
}

void fill_bins(FigureDistribution& one, const std::vector<Value>& values) {
    constexpr double wanted_bins = 24.0;
    const double span = one.highest - one.lowest;
    // Values that differ by rounding alone are one value.
    constexpr double rounding = 1e-12;
    if (span <= rounding * std::max(std::abs(one.highest), std::abs(one.lowest))) {
        one.bins_from = one.lowest;
        one.bins.resize(1);
    } else {
        one.bin_width = round_width(span / wanted_bins);
        one.bins_from = one.bin_width * std::floor(one.lowest / one.bin_width);
        one.bins.resize(1 +
                        static_cast<std::size_t>((one.highest - one.bins_from) / one.bin_width));
    }
    for (const Value& value : values) {
        const double place =
            one.bin_width > 0.0 ? (value.value - one.bins_from) / one.bin_width : 0.0;
        FigureDistribution::Bin& bin =
            one.bins[std::min(static_cast<std::size_t>(place), one.bins.size() - 1)];
        ++(value.passed ? bin.passed : bin.failed);
    }
}

}  // namespace

std::vector<FigureDistribution> figure_distributions(const CampaignResults& results) {
    std::vector<FigureDistribution> distributions;
    for (std::size_t place = 0; place < results.figures.size(); ++place) {
        FigureDistribution one;
        one.figure = results.figures[place];
        std::vector<Value> values;
        std::vector<double> sorted;
        for (const CaseRecord& record : results.cases) {
            for (const StartRow& start : record.starts) {
                if (const std::optional<double> value = figure_of(start, place)) {
                    values.push_back({*value, start.passed});
                    sorted.push_back(*value);
                } else {
                    ++one.without;
                }
            }
        }
        if (values.empty()) {
            continue;
        }
        std::sort(sorted.begin(), sorted.end());
        constexpr double tail = 0.05;
        constexpr double half = 0.5;
        one.starts = static_cast<std::int64_t>(values.size());
        one.lowest = sorted.front();
        one.low_5_percent = quantile_of_sorted(sorted, tail);
        one.median = quantile_of_sorted(sorted, half);
        one.high_5_percent = quantile_of_sorted(sorted, 1.0 - tail);
        one.highest = sorted.back();
        fill_bins(one, values);
        distributions.push_back(std::move(one));
    }
    return distributions;
}

}  // namespace sim
