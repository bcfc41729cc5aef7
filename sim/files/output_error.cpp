#include "sim/files/output_error.hpp"

#include <utility>

#include "sim/files/quoting.hpp"

namespace sim {

OutputError::OutputError(std::string file, const std::string& fault)
    : std::runtime_error(escaped(file) + ": " + fault), file_(std::move(file)) {}

}  // namespace sim
