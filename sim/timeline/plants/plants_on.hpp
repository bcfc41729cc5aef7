// The plants on one supply, with every load, fitted or bare. Each supply's are compiled in a file
// of their own: the right-hand sides are inlined into the integrator, and that takes the compiler
// a while.
#pragma once

#include <memory>

#include "sim/timeline/plant_run.hpp"

namespace sim {

/// `Supply` is a model of the supply list; each file beside this one instantiates it for one.
template <class Supply>
std::unique_ptr<PlantRun> make_plant_on(const typename Supply::Parameters& supply,
                                        const PlantDescription& description);

}  // namespace sim
