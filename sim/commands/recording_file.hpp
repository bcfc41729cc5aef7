// The file of --record, from its opening before the run to its end.
#pragma once

#include <string>

#include "sim/files/atomic_output.hpp"
#include "sim/replay/recording.hpp"
#include "sim/scenario/scenario.hpp"

namespace sim {

class RecordingFile {
  public:
    /// Throws InputError for a scenario without a controller, and OutputError.
    RecordingFile(const std::string& path, const Scenario& scenario);

    RecordingWriter& writer() { return writer_; }
    void commit();

  private:
    AtomicOutput output_;
    RecordingWriter writer_;
};

}  // namespace sim
