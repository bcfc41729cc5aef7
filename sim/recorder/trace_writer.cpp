#include "sim/recorder/trace_writer.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "sim/files/atomic_output.hpp"
#include "sim/recorder/comtrade_trace.hpp"
#include "sim/recorder/csv_trace.hpp"
#include "sim/recorder/vcd_trace.hpp"

namespace sim {

namespace {

struct FormatWord {
    std::string_view word;
    TraceFormat format;
};
constexpr std::array<FormatWord, 5> format_words = {
    {{"csv", TraceFormat::csv},
     {"vcd", TraceFormat::vcd},
     {"comtrade", TraceFormat::comtrade},
     {"comtrade-32", TraceFormat::comtrade_32},
     {"comtrade-ascii", TraceFormat::comtrade_ascii}}};

/// What writes into one file.
template <class Writer>
class OneFile final : public TraceWriter {
  public:
    OneFile(const std::string& path, std::vector<TraceChannel> channels)
        : output_(path), writer_(output_, std::move(channels)) {}

    void observe(const TickView& view) override { writer_.observe(view); }
    void commit() override { output_.commit(); }

  private:
    AtomicOutput output_;
    Writer writer_;
};

std::string ending_of(std::string_view path) {
    const std::size_t point = path.rfind('.');
    std::string ending(point == std::string_view::npos ? "" : path.substr(point + 1));
    std::transform(ending.begin(), ending.end(), ending.begin(), [](char letter) {
        return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
    });
    return ending;
}

ComtradeData data_of(TraceFormat format) {
    return format == TraceFormat::comtrade_ascii ? ComtradeData::ascii
           : format == TraceFormat::comtrade_32  ? ComtradeData::binary_32
                                                 : ComtradeData::binary;
}

}  // namespace

std::vector<std::string> trace_format_words() {
    std::vector<std::string> words;
    words.reserve(format_words.size());
    for (const FormatWord& row : format_words) {
        words.emplace_back(row.word);
    }
    return words;
}

std::optional<TraceFormat> trace_format_of(std::string_view word) {
    for (const FormatWord& row : format_words) {
        if (row.word == word) {
            return row.format;
        }
    }
    return std::nullopt;
}

TraceFormat trace_format_for(std::string_view path) {
    const std::string ending = ending_of(path);
    if (ending == "vcd") {
        return TraceFormat::vcd;
    }
    const bool is_comtrade = ending == "cfg" || ending == "dat" || ending == "cff";
    return is_comtrade ? TraceFormat::comtrade : TraceFormat::csv;
}

std::unique_ptr<TraceWriter> open_trace(const std::string& path, TraceFormat format,
                                        std::vector<TraceChannel> channels,
                                        const TraceSubject& subject) {
    switch (format) {
        case TraceFormat::csv:
            return std::make_unique<OneFile<CsvTrace>>(path, std::move(channels));
        case TraceFormat::vcd:
            return std::make_unique<OneFile<VcdTrace>>(path, std::move(channels));
        case TraceFormat::comtrade:
        case TraceFormat::comtrade_32:
        case TraceFormat::comtrade_ascii:
            break;
    }
    return std::make_unique<ComtradeTrace>(path, data_of(format), std::move(channels), subject);
}

}  // namespace sim
