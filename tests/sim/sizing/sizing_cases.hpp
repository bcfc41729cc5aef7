// Units and supplies for the tests of sizing.
#pragma once

#include <string>

#include "sim/sizing/sized_unit.hpp"

namespace sim_test {

inline sim::Scenario library_unit(const std::string& compressor) {
    return sim::read_sized_unit(compressor).unit;
}

inline sim::SupplyAtHand supply(const std::string& name) {
    return sim::library_supply(name).value();
}

}  // namespace sim_test
