// Scenarios that are made of library entries, as a user would write them.
#pragma once

#include <string>
#include <string_view>

#include "sim/scenario/scenario.hpp"

namespace sim_test {

/// Both entries, started directly after the default rest, watched for two seconds.
sim::Scenario combined_scenario(std::string_view compressor, std::string_view supply);

/// The compressor, started directly after five minutes of rest from a grid of its rated voltage
/// and frequency that falls by 2 % with the rotor locked, and watched for three seconds.
sim::Scenario on_stiff_grid(std::string_view compressor, double ambient_C);

}  // namespace sim_test
