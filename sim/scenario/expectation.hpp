// Table [expect]: what the run should end in. A run that ends so exits with 0, any other with 1.
#pragma once

#include "sim/scenario/outcome.hpp"

namespace sim {

struct Expectation {
    Outcome outcome = Outcome::running;
};

}  // namespace sim
