// What the controller's program on a processor is run through, beside this build's controller.
#pragma once

#include <ostream>
#include <string>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace processor_tests {

struct Case {
    std::string name;
    sim::Scenario scenario;  ///< with kind "builtin"
    int starts = 1;          ///< more: a series, with the controller's power cut in every rest
};

inline void PrintTo(const Case& one, std::ostream* out) {
    *out << one.name;
}

/// The bundled scenarios with a controller, and an invented motor of every class.
std::vector<Case> starts();
/// Every single fault that a unit can have, in the middle of a climb.
std::vector<Case> faults();
/// The learning of a dozen starts, over power cuts.
std::vector<Case> series();

/// The same scenario with the controller on a processor.
sim::Scenario on_processor(sim::Scenario scenario);

/// Empty if there is an emulator and a program for the processor; else why not.
std::string why_no_processor();

}  // namespace processor_tests
