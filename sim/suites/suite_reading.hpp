// What reading a suite shares with its fuzzing and with the command line.
#pragma once

#include <cstdint>
#include <memory>
#include <string>

#include "sim/suites/suite.hpp"

namespace sim {

/// As suite_from_text, with another bound on the cells of a block: every cell is built once while a
/// suite is read, which takes its time.
std::unique_ptr<Suite> suite_from_text(const std::string& text, const std::string& name,
                                       std::int64_t most_cells_per_block);

/// Throws InputError for what looks like a slip in the name of a bundled suite.
void refuse_if_no_path(const std::string& path_or_name);

}  // namespace sim
