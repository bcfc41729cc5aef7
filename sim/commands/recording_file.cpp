#include "sim/commands/recording_file.hpp"

#include <variant>

#include "sim/files/input_error.hpp"

namespace sim {

namespace {

const std::string& path_with_controller(const std::string& path, const Scenario& scenario) {
    if (std::holds_alternative<NoLimiter>(scenario.limiter)) {
        throw InputError(scenario.name, 0, "limiter.kind",
                         "a direct start has no controller to record; leave --record out");
    }
    return path;
}

}  // namespace

RecordingFile::RecordingFile(const std::string& path, const Scenario& scenario)
    : output_(path_with_controller(path, scenario)),
      writer_(output_, recorded_beginning(scenario)) {}

void RecordingFile::commit() {
    writer_.finish();
    output_.commit();
}

}  // namespace sim
