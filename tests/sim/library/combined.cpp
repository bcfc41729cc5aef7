#include "library/combined.hpp"

#include <fmt/format.h>

#include "sim/library/library.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace sim_test {

sim::Scenario combined_scenario(std::string_view compressor, std::string_view supply) {
    return sim::parse_scenario(fmt::format("[library]\n"
                                           "compressor = \"{}\"\n"
                                           "supply = \"{}\"\n"
                                           "[limiter]\n"
                                           "kind = \"none\"\n"
                                           "[run]\n"
                                           "duration_s = 2\n",
                                           compressor, supply),
                               "combined.toml");
}

sim::Scenario on_stiff_grid(std::string_view compressor, double ambient_C) {
    constexpr double sag_share = 0.02;
    const sim::Scenario unit =
        sim::parse_library_entry(*sim::find_entry(sim::library_compressors(), compressor));
    const auto& protector = std::get<plant_models::LineBreakParameters>(unit.unit.protector);
    return sim::parse_scenario(
        fmt::format("[library]\n"
                    "compressor = \"{}\"\n"
                    "[conditions]\n"
                    "ambient_C = {}\n"
                    "rest_s = 300\n"
                    "[source]\n"
                    "kind = \"grid\"\n"
                    "voltage_V = {}\n"
                    "frequency_Hz = {}\n"
                    "resistance_ohm = {}\n"
                    "inductance_mH = 0\n"
                    "phase_deg = 0\n"
                    "[limiter]\n"
                    "kind = \"none\"\n"
                    "[run]\n"
                    "duration_s = 3\n",
                    compressor, ambient_C, unit.motor.rated_voltage_V,
                    unit.motor.rated_frequency_Hz,
                    sag_share * unit.motor.rated_voltage_V / protector.trip_current_A),
        "on_stiff_grid.toml");
}

}  // namespace sim_test
