// Writes what changes as a value change dump (IEEE 1364), for the viewers that firmware developers
// look at signals with. Time scale: 1 us.
//
//   plant       contacts, conduction, supply: the truth, as of each tick
//   commands    the coils, and `gate` with its edges at their very microsecond within the tick
//   controller  sensor counts, state, reason, stage, status word, readings
//   watch       what was chosen to be watched, by parts of the controller
//
// Whole numbers are vectors in two's complement, other numbers reals with the channel's digits. The
// plant's voltages and currents are left out: they change at every tick, and the other formats hold
// them.
#pragma once

#include <fmt/format.h>

#include <cstdint>
#include <string>
#include <vector>

#include "sim/files/atomic_output.hpp"
#include "sim/recorder/trace_channels.hpp"

namespace sim {

class VcdTrace final {
  public:
    /// `output` must outlive the trace; the caller commits it. Throws OutputError.
    VcdTrace(AtomicOutput& output, std::vector<TraceChannel> channels);

    void observe(const TickView& view);

  private:
    struct Signal {
        TraceChannel channel;
        std::string scope;
        std::string name;
        std::string code;
        std::string written;  ///< the value as last written
    };

    void take(TraceChannel channel);
    void write_header();
    void write_signals(const TickView& view, bool commanded);
    void write_gate(const PowerCommands& commands, std::int64_t tick_begin_us);
    void set_gate(bool is_on, std::int64_t at_us);
    void move_to(std::int64_t at_us);

    AtomicOutput& output_;
    std::vector<Signal> signals_;
    std::string gate_code_;
    bool gate_is_on_ = false;
    bool has_begun_ = false;
    std::int64_t written_us_ = -1;
    fmt::memory_buffer value_;
};

}  // namespace sim
