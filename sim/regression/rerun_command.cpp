#include "sim/regression/rerun_command.hpp"

#include <fmt/format.h>

#include "sim/files/quoting.hpp"

namespace sim {

std::string rerun_command(const std::string& from, std::int64_t id, bool is_series) {
    return fmt::format("runup {} --case {}", is_series ? "repeat" : "start",
                       shell_word(fmt::format("{}#{}", from, id)));
}

}  // namespace sim
