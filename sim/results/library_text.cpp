#include "sim/results/library_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>

namespace sim {

namespace {

/// Of the names, so that a longer one does not push its row out of line.
template <class Rows>
std::size_t name_width(const Rows& rows) {
    std::size_t width = 4;
    for (const auto& row : rows) {
        width = std::max(width, row.name.size());
    }
    return width;
}

std::string compressor_lines(const std::vector<CompressorOverview>& rows, std::size_t width) {
    std::string text =
        fmt::format("  {:<{}} {:>4} {:>3} {:>8} {:>6}  {:<14} {:<6} {}\n", "name", width, "V", "Hz",
                    "locked A", "run uF", "load", "gas", "what it is");
    for (const CompressorOverview& row : rows) {
        text += fmt::format("  {:<{}} {:>4.0f} {:>3.0f} {:>8.1f} {:>6}  {:<14} {:<6} {}\n",
                            row.name, width, row.voltage_V, row.frequency_Hz, row.locked_rotor_A,
                            row.run_capacitor_uF > 0.0 ? fmt::format("{:g}", row.run_capacitor_uF)
                                                       : std::string("none"),
                            row.load, row.gas.empty() ? "-" : row.gas, row.title);
    }
    return text;
}

std::string supply_lines(const std::vector<SupplyOverview>& rows, std::size_t width) {
    std::string text = fmt::format("  {:<{}} {:>4} {:>3}  {:<20} {}\n", "name", width, "V", "Hz",
                                   "kind", "what it is");
    for (const SupplyOverview& row : rows) {
        text += fmt::format("  {:<{}} {:>4.0f} {:>3.0f}  {:<20} {}\n", row.name, width,
                            row.voltage_V, row.frequency_Hz, row.kind, row.title);
    }
    return text;
}

std::string suite_lines(const std::vector<SuiteOverview>& rows, std::size_t width) {
    std::string text;
    for (const SuiteOverview& row : rows) {
        text += fmt::format("  {:<{}} {}\n", row.name, width, row.title);
    }
    return text;
}

}  // namespace

std::string library_text(const std::vector<CompressorOverview>& compressors,
                         const std::vector<SupplyOverview>& supplies,
                         const std::vector<SuiteOverview>& suites) {
    const std::size_t width = std::max(name_width(compressors), name_width(supplies));
    return "Compressors\n\n" + compressor_lines(compressors, width) + "\nSupplies\n\n" +
           supply_lines(supplies, width) + "\nSuites, for runup regress\n\n" +
           suite_lines(suites, width) +
           "\n  Generic, of no make. Every number's origin stands in the entry: runup list NAME.\n"
           "  locked A: line current with the rotor locked, at rated voltage.\n"
           "  In a scenario: [library] compressor = \"...\", supply = \"...\"; what the scenario's "
           "own\n"
           "  tables give counts.\n";
}

}  // namespace sim
