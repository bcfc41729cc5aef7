#include "sim/recorder/csv_trace.hpp"

#include <iterator>
#include <utility>

namespace sim {

CsvTrace::CsvTrace(AtomicOutput& output, std::vector<TraceChannel> channels)
    : output_(output), channels_(std::move(channels)) {
    std::string header;
    for (const TraceChannel& channel : channels_) {
        header += header.empty() ? "" : ",";
        header += channel.name;
    }
    output_.write(header + "\n");
}

void CsvTrace::observe(const TickView& view) {
    row_.clear();
    for (const TraceChannel& channel : channels_) {
        if (row_.size() > 0) {
            row_.push_back(',');
        }
        // Adding 0 turns a negative zero into a plain one.
        fmt::format_to(std::back_inserter(row_), "{:.{}f}", channel.value(view) + 0.0,
                       channel.digits);
    }
    row_.push_back('\n');
    output_.write({row_.data(), row_.size()});
}

}  // namespace sim
