// The inside of a worker process: runs the cases that it is told, and answers with what they came
// to. Whatever a case does to the process, it does to this one only.
#pragma once

#include "sim/suites/suite.hpp"

namespace sim {

/// Reads ids (std::int64_t) from `asked` until its end and writes CaseMessages to `told`. Never
/// returns. Ends with the process that made it, is deaf to ctrl-C (that process decides), and
/// prints nothing.
[[noreturn]] void work(const Suite& suite, int asked, int told, int parent_process);

/// Both read and write go on until all is done or the other end is gone (false).
bool read_whole(int descriptor, void* bytes, std::size_t count);
bool write_whole(int descriptor, const void* bytes, std::size_t count);

}  // namespace sim
