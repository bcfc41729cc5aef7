// Writes a trace as COMTRADE of 2013 (IEEE C37.111-2013 / IEC 60255-24:2013), for the programs that
// protection and power engineers look at records with: a configuration (.cfg) and a data file
// (.dat), or both as one file (.cff). The two files appear together.
//
// What is left of the standard to choose, and how it is chosen:
//
//   analog channels  every channel that is not a flag, under its own name; unit from the name's
//                    ending, NONE without one; primary values (P, 1 to 1)
//   a, b             comtrade_scale.hpp: a reading is off by at most a / 2, and by nothing where a
//                    is the last digit of the CSV trace. With 32 bits that is so for every channel
//   digital channels the flags, the gate (driven at any time in the tick that ends), and one bit
//                    for every state of the controller
//   time             10,000 samples a second, also as microseconds in every sample (as ticks, when
//                    that is more than the 71 minutes that they can count; a recording that is
//                    replayed has rests between its starts). A simulation has no date: 01/01/1970,
//                    time quality F (not reliable)
//   trigger          the first call for cooling; the first sample without one
//
// Readings are kept until the end, 8 bytes each: their range is only known then.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "sim/files/atomic_output.hpp"
#include "sim/recorder/trace_writer.hpp"

namespace sim {

enum class ComtradeData { binary, binary_32, ascii };

class ComtradeTrace final : public TraceWriter {
  public:
    /// A path that ends in .cff makes the single file; of any other, .cfg or .dat is left off and
    /// both are put in its place. Throws OutputError.
    ComtradeTrace(const std::string& path, ComtradeData data, std::vector<TraceChannel> channels,
                  TraceSubject subject);

    void observe(const TickView& view) override;
    void commit() override;

  private:
    struct Analog {
        TraceChannel channel;
        std::int64_t lowest = 0;
        std::int64_t highest = 0;
    };

    std::string configuration() const;
    std::string data() const;
    std::int64_t most() const;
    bool is_even() const;
    std::int64_t time_unit_us() const;

    ComtradeData data_;
    TraceSubject subject_;
    std::unique_ptr<AtomicOutput> single_;  ///< or the next two
    std::unique_ptr<AtomicOutput> configuration_file_;
    std::unique_ptr<AtomicOutput> data_file_;

    std::vector<Analog> analogs_;
    std::vector<TraceChannel> digitals_;
    std::vector<std::int64_t> readings_;  ///< of all ticks, one after another
    std::vector<std::uint16_t> words_;    ///< 16 digital channels each
    std::vector<std::int64_t> times_us_;
    std::int64_t trigger_us_ = -1;
};

}  // namespace sim
