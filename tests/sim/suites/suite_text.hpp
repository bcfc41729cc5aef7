// Suites as short texts, for tests.
#pragma once

#include <memory>
#include <string>

#include "sim/suites/suite.hpp"

namespace sim_test {

/// With a heading of seed 3.
inline std::string suite_text(const std::string& tables) {
    return "[suite]\ntitle = \"A test\"\nseed = 3\n" + tables;
}

inline std::unique_ptr<sim::Suite> suite_of(const std::string& tables) {
    return sim::suite_from_text(suite_text(tables), "test.toml");
}

/// A block of one compressor on one supply, with whatever else.
inline std::string one_pair(const std::string& more, const std::string& name = "pair") {
    return "[[block]]\nname = \"" + name +
           "\"\ncompressors = \"cold_room_230v_50hz\"\nsupplies = \"house_grid_230v_50hz\"\n" +
           more;
}

}  // namespace sim_test
