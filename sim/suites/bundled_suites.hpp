// The suites that come with the program: the files of sim/suites/bundled, embedded in it as the
// library is.
#pragma once

#include <vector>

#include "sim/library/library.hpp"

namespace sim {

/// By name.
const std::vector<LibraryEntry>& bundled_suites();

}  // namespace sim
