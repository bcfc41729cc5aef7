#include "sim/results/library_text.hpp"

#include <fmt/format.h>

namespace sim {

std::string library_text(const std::vector<CompressorOverview>& compressors,
                         const std::vector<SupplyOverview>& supplies) {
    std::string text =
        fmt::format("Compressors\n\n  {:<32} {:>5} {:>3} {:>8} {:>7}  {:<14} {:<6} {}\n", "name",
                    "V", "Hz", "locked A", "run uF", "load", "gas", "what it is");
    for (const CompressorOverview& row : compressors) {
        text += fmt::format("  {:<32} {:>5.0f} {:>3.0f} {:>8.1f} {:>7}  {:<14} {:<6} {}\n",
                            row.name, row.voltage_V, row.frequency_Hz, row.locked_rotor_A,
                            row.run_capacitor_uF > 0.0 ? fmt::format("{:g}", row.run_capacitor_uF)
                                                       : std::string("none"),
                            row.load, row.gas.empty() ? "-" : row.gas, row.title);
    }
    text += fmt::format("\nSupplies\n\n  {:<32} {:>5} {:>3}  {:<20} {}\n", "name", "V", "Hz",
                        "kind", "what it is");
    for (const SupplyOverview& row : supplies) {
        text += fmt::format("  {:<32} {:>5.0f} {:>3.0f}  {:<20} {}\n", row.name, row.voltage_V,
                            row.frequency_Hz, row.kind, row.title);
    }
    return text +
           "\n  Generic, of no make. Every number's origin stands in the entry: runup list NAME.\n"
           "  In a scenario: [library] compressor = \"...\", supply = \"...\"; what the scenario's "
           "own\n"
           "  tables give counts.\n";
}

}  // namespace sim
