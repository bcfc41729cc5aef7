// A fault by its times on the clock.
#pragma once

#include "sim/scenario/fault_choice.hpp"

namespace sim_test {

/// `duration_s` of 0: to the end.
template <class F>
sim::Fault fault(const F& what, double at_s = 0.0, double duration_s = 0.0) {
    sim::Fault one;
    one.what = what;
    one.timing.at_s = at_s;
    one.timing.duration_s = duration_s;
    return one;
}

}  // namespace sim_test
