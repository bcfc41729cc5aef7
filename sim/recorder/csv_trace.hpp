// Writes every channel at every tick as comma-separated values: one header line with the units in
// the names, then one row per tick.
#pragma once

#include <fmt/format.h>

#include <vector>

#include "sim/bench/start_run.hpp"
#include "sim/files/atomic_output.hpp"
#include "sim/recorder/trace_channels.hpp"

namespace sim {

class CsvTrace final : public TickObserver {
  public:
    /// `output` must outlive the trace; the caller commits it. Throws OutputError.
    CsvTrace(AtomicOutput& output, std::vector<TraceChannel> channels);

    void observe(const TickView& view) override;

  private:
    AtomicOutput& output_;
    std::vector<TraceChannel> channels_;
    fmt::memory_buffer row_;
};

}  // namespace sim
