// Controllers as shared libraries, built for the tests (bad_libraries/) and as examples.
#pragma once

#include <string>

#include "sim/scenario/limiter_choice.hpp"
#include "sim/scenario/scenario.hpp"

namespace sim_test {

/// One of tests/sim/controllers/bad_libraries, or "own_firmware".
inline std::string test_controller(const std::string& name) {
    return std::string(RUNUP_TEST_CONTROLLERS) + "/" + name + ".so";
}

inline std::string example_path(const std::string& file) {
    return std::string(RUNUP_EXAMPLES) + "/" + file;
}

/// The scenario with its limiter's parts, and this library as its controller.
inline sim::Scenario with_library(sim::Scenario scenario, const std::string& path) {
    sim::LibraryLimiter limiter;
    limiter.parts = *sim::parts_of(scenario.limiter);
    limiter.path = path;
    scenario.limiter = limiter;
    return scenario;
}

}  // namespace sim_test
