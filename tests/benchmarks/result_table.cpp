#include "result_table.hpp"

#include <fmt/format.h>

#include <optional>
#include <ostream>

#include "counters.hpp"

namespace benchmarks {

namespace {

std::optional<double> counter(const benchmark::UserCounters& counters, const char* name) {
    const auto found = counters.find(name);
    return found == counters.end() ? std::nullopt : std::optional<double>(found->second.value);
}

std::string duration(double seconds) {
    if (seconds < 1e-6) {
        return fmt::format("{:.3g} ns", 1e9 * seconds);
    }
    return seconds < 1e-3 ? fmt::format("{:.1f} us", 1e6 * seconds)
                          : fmt::format("{:.2f} ms", 1e3 * seconds);
}

constexpr const char* columns = "{:<46}{:>12}{:>13}{:>15}{:>13}{:>13}\n";

}  // namespace

void TableReporter::ReportRuns(const std::vector<Run>& runs) {
    ConsoleReporter::ReportRuns(runs);
    for (const Run& run : runs) {
        if (run.run_type != Run::RT_Iteration || run.error_occurred) {
            continue;
        }
        // Who starts another process measures that process's time by hand.
        const bool by_hand = !run.run_name.time_type.empty();
        const double total_s = by_hand ? run.real_accumulated_time : run.cpu_accumulated_time;
        const double count = static_cast<double>(run.iterations) *
                             counter(run.counters, counters::operations).value_or(1.0);
        std::string name = run.run_name.function_name;
        if (!run.run_name.args.empty()) {
            name += " " + run.run_name.args;
        }
        rows_.push_back({name, total_s / count, run.counters});
    }
}

const TableReporter::Row* TableReporter::yardstick() const {
    for (const Row& row : rows_) {
        if (counter(row.counters, counters::yardstick)) {
            return &row;
        }
    }
    return nullptr;
}

const TableReporter::Row* TableReporter::closest_rival() const {
    const auto error = [](const Row& row) {
        return counter(row.counters, counters::current_error).value_or(1.0);
    };
    const Row* best = nullptr;
    for (const Row& row : rows_) {
        if (!counter(row.counters, counters::rival)) {
            continue;
        }
        const bool accurate = error(row) <= error(*yardstick());
        if (best == nullptr ||
            (accurate && error(*best) <= error(*yardstick()) ? row.seconds < best->seconds
                                                             : error(row) < error(*best))) {
            best = &row;
        }
    }
    return best;
}

void TableReporter::print_row(std::ostream& out, const Row& row) const {
    std::string speed;
    std::string current_error;
    std::string time_error;
    std::string multiple;
    if (const auto simulated_s = counter(row.counters, counters::simulated_s)) {
        speed = fmt::format("{:.1f}", *simulated_s / row.seconds);
    }
    if (const auto error = counter(row.counters, counters::current_error)) {
        current_error = fmt::format("{:.1e}", *error);
    }
    if (const auto error_s = counter(row.counters, counters::time_error_s)) {
        time_error = duration(*error_s);
    }
    if (counter(row.counters, counters::rival) && yardstick() != nullptr) {
        multiple = fmt::format("{:.0f}", row.seconds / yardstick()->seconds);
    }
    out << fmt::format(columns, row.name, duration(row.seconds), speed, current_error, time_error,
                       multiple);
}

void TableReporter::print_comparison(std::ostream& out) const {
    const Row* const ours = yardstick();
    const Row* const theirs = ours == nullptr ? nullptr : closest_rival();
    if (theirs == nullptr) {
        return;
    }
    out << fmt::format(
        "\nAt equal accuracy: \"{}\" takes {:.0f} times as long as \"{}\",\n"
        "at a current error of {:.1e} against {:.1e}.\n",
        theirs->name, theirs->seconds / ours->seconds, ours->name,
        counter(theirs->counters, counters::current_error).value_or(0.0),
        counter(ours->counters, counters::current_error).value_or(0.0));
}

void TableReporter::print_table(std::ostream& out) const {
    out << '\n'
        << fmt::format(columns, "", "time", "x real time", "current error", "time error",
                       "x R1 direct");
    for (const Row& row : rows_) {
        print_row(out, row);
    }
    out << "\ntime           of the processor, which is the time on the clock of a free core\n"
           "current error  RMS of the line current's difference from the same commands run at "
           "steps\n"
           "               of 2.5 us, over its RMS\n"
           "time error     of passing 90 % of synchronous speed\n"
           "x R1 direct    in multiples of our time for the same two seconds of the same start\n";
    print_comparison(out);
}

}  // namespace benchmarks
