// Table [expect]: what the run should end in. A run that ends so exits with 0, any other with 1.
//
// A scenario that shows a failure expects that failure: a direct start on a small inverter is right
// when the supply trips.
#pragma once

#include "sim/scenario/outcome.hpp"

namespace sim {

struct Expectation {
    /// Of the whole run, at its end; what came between does not count.
    Outcome outcome = Outcome::running;
};

}  // namespace sim
