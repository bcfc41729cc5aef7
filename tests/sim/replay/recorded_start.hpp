// A start that is recorded, as text and as it is read again.
#pragma once

#include <string>

#include "files/temporary_folder.hpp"
#include "sim/replay/recording.hpp"
#include "sim/scenario/scenario.hpp"

namespace sim_test {

/// Its text.
std::string recorded_start(const sim::Scenario& scenario);
/// A series with this rest between its starts.
std::string recorded_series(const sim::Scenario& scenario, int starts, double rest_s,
                            bool power_cuts);

sim::Recording read_back(const std::string& text);

}  // namespace sim_test
