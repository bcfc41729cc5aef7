// A trace of a run in a file: every channel at every tick, in one of several formats.
//
// The format is the one asked for, or else what the file's ending says; any other ending is CSV:
//
//   csv             comma-separated values, one row per tick
//   vcd             value change dump (IEEE 1364): flags, whole numbers and the controller's
//                   readings, with gate edges at their microsecond
//   comtrade        COMTRADE of 2013 (IEEE C37.111, IEC 60255-24), 16-bit binary: a .cfg and a
//                   .dat file; an ending .cff makes a single file of both
//   comtrade-32     the same with 32 bits, for readings that 16 would make too coarse
//   comtrade-ascii  the same as text
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/bench/start_bench.hpp"
#include "sim/recorder/trace_channels.hpp"

namespace sim {

enum class TraceFormat { csv, vcd, comtrade, comtrade_32, comtrade_ascii };

class TraceWriter : public TickObserver {
  public:
    /// The run is over. Throws OutputError.
    virtual void commit() = 0;
};

/// What a trace is of.
struct TraceSubject {
    std::string name;           ///< of the scenario
    double frequency_Hz = 0.0;  ///< nominal, of the supply
};

std::vector<std::string> trace_format_words();
std::optional<TraceFormat> trace_format_of(std::string_view word);
/// By the ending of a path.
TraceFormat trace_format_for(std::string_view path);

/// Opens at once, so that a wrong path is found before the work is done. Throws OutputError.
std::unique_ptr<TraceWriter> open_trace(const std::string& path, TraceFormat format,
                                        std::vector<TraceChannel> channels,
                                        const TraceSubject& subject);

}  // namespace sim
