// Collects what the benchmarks report and prints it as one table at the end.
#pragma once

#include <benchmark/benchmark.h>

#include <iosfwd>
#include <string>
#include <vector>

namespace benchmarks {

/// Prints like the ordinary console reporter, and remembers.
class TableReporter final : public benchmark::ConsoleReporter {
  public:
    TableReporter() : ConsoleReporter(OO_None) {}

    void ReportRuns(const std::vector<Run>& runs) override;

    /// Speed and error side by side, and rivals in multiples of our time.
    void print_table(std::ostream& out) const;

  private:
    struct Row {
        std::string name;
        /// Of the processor: what a free core takes on the clock, whatever else the machine does.
        double seconds = 0.0;
        benchmark::UserCounters counters;
    };

    const Row* yardstick() const;
    /// The fastest rival that is as accurate as the yardstick, or else the most accurate one.
    const Row* closest_rival() const;
    void print_row(std::ostream& out, const Row& row) const;
    void print_comparison(std::ostream& out) const;

    std::vector<Row> rows_;
};

}  // namespace benchmarks
