#include "sim/recorder/comtrade_trace.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <string_view>
#include <utility>

#include "firmware/sequence/state.hpp"
#include "sim/files/output_error.hpp"
#include "sim/recorder/comtrade_scale.hpp"

namespace sim {

namespace {

constexpr std::size_t bits_in_a_word = 16;

bool ends_in(const std::string& path, std::string_view ending) {
    return path.size() >= ending.size() &&
           std::equal(ending.rbegin(), ending.rend(), path.rbegin(), [](char wanted, char letter) {
               return wanted == letter || (letter >= 'A' && letter <= 'Z' &&
                                           wanted == static_cast<char>(letter - 'A' + 'a'));
           });
}

/// The unit that a name ends in.
std::string unit_of(const std::string& name) {
    struct Unit {
        std::string_view ending;
        const char* unit;
    };
    constexpr std::array<Unit, 23> units = {
        {{"_V", "V"},           {"_mV", "mV"},     {"_A", "A"},
         {"_mA", "mA"},         {"_mA2", "mA^2"},  {"_Nm", "N.m"},
         {"_rpm", "r/min"},     {"_Hz", "Hz"},     {"_mHz", "mHz"},
         {"_deg", "deg"},       {"_mdeg", "mdeg"}, {"_us", "us"},
         {"_ms", "ms"},         {"_s", "s"},       {"_ticks", "100us"},
         {"_counts", "counts"}, {"_percent", "%"}, {"_permille", "permille"},
         {"_C", "degC"},        {"_bar", "bar"},   {"_kPa", "kPa"},
         {"_W", "W"},           {"_J", "J"}}};
    for (const Unit& row : units) {
        const std::string_view ending = row.ending;
        if (name.size() > ending.size() &&
            name.compare(name.size() - ending.size(), ending.size(), ending) == 0) {
            return row.unit;
        }
    }
    return "NONE";
}

/// Commas separate fields and control characters end lines.
std::string field(std::string_view text) {
    std::string clean(text.substr(0, 64));
    std::replace_if(
        clean.begin(), clean.end(),
        [](char letter) { return letter == ',' || (letter >= 0 && letter < ' ') || letter == 127; },
        ' ');
    return clean;
}

/// Of the day that simulated time begins with.
std::string date_and_time(std::int64_t us) {
    constexpr std::int64_t second = 1000000;
    return fmt::format("01/01/1970,{:02}:{:02}:{:02}.{:06}", us / (3600 * second),
                       us / (60 * second) % 60, us / second % 60, us % second);
}

template <class Word>
void append_word(std::string& bytes, Word word) {
    for (std::size_t k = 0; k < sizeof(Word); ++k) {
        bytes += static_cast<char>((word >> (8U * k)) & 0xFFU);
    }
}

void append_state_bits(std::vector<TraceChannel>& digitals) {
    for (std::uint8_t k = 0; k < firmware::state_count; ++k) {
        const auto state = static_cast<firmware::State>(k);
        std::string name = "state_" + std::string(firmware::name_of(state));
        std::replace(name.begin(), name.end(), ' ', '_');
        digitals.push_back({std::move(name), 0,
                            [state](const TickView& view) {
                                return !view.seen && view.controller->state == state ? 1.0 : 0.0;
                            },
                            TraceOrigin::controller, 1});
    }
}

double gate_driven(const TickView& view) {
    return view.commands.gate_off > view.commands.gate_on ? 1.0 : 0.0;
}

}  // namespace

ComtradeTrace::ComtradeTrace(const std::string& path, ComtradeData data,
                             std::vector<TraceChannel> channels, TraceSubject subject)
    : data_(data), subject_(std::move(subject)) {
    if (path == "-") {
        throw OutputError("standard output",
                          "COMTRADE is two files; give --trace the name of a file");
    }
    if (ends_in(path, ".cff")) {
        single_ = std::make_unique<AtomicOutput>(path);
    } else {
        const bool has_ending = ends_in(path, ".cfg") || ends_in(path, ".dat");
        const std::string stem = has_ending ? path.substr(0, path.size() - 4) : path;
        configuration_file_ = std::make_unique<AtomicOutput>(stem + ".cfg");
        data_file_ = std::make_unique<AtomicOutput>(stem + ".dat");
    }
    bool has_controller = false;
    for (TraceChannel& channel : channels) {
        has_controller = has_controller || channel.origin == TraceOrigin::controller;
        if (channel.name == "time_s") {
            continue;
        }
        if (channel.bits == 1) {
            digitals_.push_back(std::move(channel));
        } else {
            analogs_.push_back({std::move(channel)});
        }
    }
    digitals_.push_back({"gate", 0, gate_driven, TraceOrigin::commands, 1});
    if (has_controller) {
        append_state_bits(digitals_);
    }
}

void ComtradeTrace::observe(const TickView& view) {
    const bool is_first = times_us_.empty();
    times_us_.push_back(view.time.count() / 1000);
    if (view.call_for_cooling && trigger_us_ < 0) {
        trigger_us_ = times_us_.back();
    }
    for (Analog& analog : analogs_) {
        const double scale = std::pow(10.0, analog.channel.digits);
        const std::int64_t reading = std::llround(scale * analog.channel.value(view));
        analog.lowest = is_first ? reading : std::min(analog.lowest, reading);
        analog.highest = is_first ? reading : std::max(analog.highest, reading);
        readings_.push_back(reading);
    }
    for (std::size_t first = 0; first < digitals_.size(); first += bits_in_a_word) {
        unsigned word = 0;
        const std::size_t end = std::min(first + bits_in_a_word, digitals_.size());
        for (std::size_t k = first; k < end; ++k) {
            word |= digitals_[k].value(view) != 0.0 ? 1U << (k - first) : 0U;
        }
        words_.push_back(static_cast<std::uint16_t>(word));
    }
}

// Beyond these the standard has its marks for missing data, or older readers their limits.
std::int64_t ComtradeTrace::most() const {
    switch (data_) {
        case ComtradeData::binary:
            return 32767;
        case ComtradeData::binary_32:
            return 2147483647;
        case ComtradeData::ascii:
            break;
    }
    return 99998;
}

bool ComtradeTrace::is_even() const {
    const auto expected = static_cast<std::int64_t>(times_us_.size()) - 1;
    return times_us_.empty() ||
           times_us_.back() - times_us_.front() == expected * firmware::tick_length_us;
}

// The time of a sample has 32 bits.
std::int64_t ComtradeTrace::time_unit_us() const {
    constexpr std::int64_t most_units = 0xFFFFFFFF;
    const std::int64_t length_us = times_us_.empty() ? 0 : times_us_.back() - times_us_.front();
    if (length_us <= most_units) {
        return 1;
    }
    if (length_us / firmware::tick_length_us > most_units) {
        throw OutputError("COMTRADE",
                          "more than 119 hours do not fit; trace fewer starts, or as CSV");
    }
    return firmware::tick_length_us;
}

std::string ComtradeTrace::configuration() const {
    constexpr std::string_view end = "\r\n";
    std::string text = fmt::format("runup,{},2013{}", field(subject_.name), end);
    text += fmt::format("{},{}A,{}D{}", analogs_.size() + digitals_.size(), analogs_.size(),
                        digitals_.size(), end);
    for (std::size_t k = 0; k < analogs_.size(); ++k) {
        const Analog& analog = analogs_[k];
        const ComtradeScale scale(analog.lowest, analog.highest, analog.channel.digits, most());
        text +=
            fmt::format("{},{},,,{},{},{},0,{},{},1,1,P{}", k + 1, field(analog.channel.name),
                        unit_of(analog.channel.name), scale.a(), scale.b(), -most(), most(), end);
    }
    for (std::size_t k = 0; k < digitals_.size(); ++k) {
        text += fmt::format("{},{},,,0{}", k + 1, field(digitals_[k].name), end);
    }
    const std::int64_t first_us = times_us_.empty() ? 0 : times_us_.front();
    // A rest leaves ticks out; then only the samples' own times count.
    text += fmt::format("{:g}{}{}{}{},{}{}", subject_.frequency_Hz, end, is_even() ? 1 : 0, end,
                        is_even() ? firmware::ticks_per_second : 0, times_us_.size(), end);
    text += fmt::format("{}{}{}{}", date_and_time(first_us), end,
                        date_and_time(trigger_us_ < 0 ? first_us : trigger_us_), end);
    text += fmt::format("{}{}{}{}",
                        data_ == ComtradeData::binary      ? "BINARY"
                        : data_ == ComtradeData::binary_32 ? "BINARY32"
                                                           : "ASCII",
                        end, time_unit_us(), end);
    return text + fmt::format("0,x{}F,3{}", end, end);
}

std::string ComtradeTrace::data() const {
    std::vector<ComtradeScale> scales;
    for (const Analog& analog : analogs_) {
        scales.emplace_back(analog.lowest, analog.highest, analog.channel.digits, most());
    }
    const std::size_t word_count = (digitals_.size() + bits_in_a_word - 1) / bits_in_a_word;
    const std::int64_t unit_us = time_unit_us();
    std::string bytes;
    for (std::size_t row = 0; row < times_us_.size(); ++row) {
        const std::int64_t* readings = readings_.data() + row * analogs_.size();
        const std::uint16_t* words = words_.data() + row * word_count;
        const auto time =
            static_cast<std::uint32_t>((times_us_[row] - times_us_.front()) / unit_us);
        if (data_ == ComtradeData::ascii) {
            fmt::format_to(std::back_inserter(bytes), "{},{}", row + 1, time);
            for (std::size_t k = 0; k < scales.size(); ++k) {
                fmt::format_to(std::back_inserter(bytes), ",{}", scales[k].number_of(readings[k]));
            }
            for (std::size_t k = 0; k < digitals_.size(); ++k) {
                const unsigned word = words[k / bits_in_a_word];
                bytes += (word >> (k % bits_in_a_word) & 1U) != 0 ? ",1" : ",0";
            }
            bytes += "\r\n";
            continue;
        }
        append_word(bytes, static_cast<std::uint32_t>(row + 1));
        append_word(bytes, time);
        for (std::size_t k = 0; k < scales.size(); ++k) {
            const std::int64_t number = scales[k].number_of(readings[k]);
            if (data_ == ComtradeData::binary) {
                append_word(bytes, static_cast<std::uint16_t>(number));
            } else {
                append_word(bytes, static_cast<std::uint32_t>(number));
            }
        }
        for (std::size_t k = 0; k < word_count; ++k) {
            append_word(bytes, words[k]);
        }
    }
    return bytes;
}

void ComtradeTrace::commit() {
    const std::string samples = data();
    if (single_ == nullptr) {
        configuration_file_->write(configuration());
        data_file_->write(samples);
        // The data first: a configuration that is there has its data beside it.
        AtomicOutput::commit_together({data_file_.get(), configuration_file_.get()});
        return;
    }
    single_->write("--- file type: CFG ---\r\n" + configuration());
    // Of the two sections that may be empty the headings are still there.
    single_->write("--- file type: INF ---\r\n--- file type: HDR ---\r\n");
    single_->write(data_ == ComtradeData::ascii
                       ? std::string("--- file type: DAT ASCII ---\r\n")
                       : fmt::format("--- file type: DAT {}: {} ---\r\n",
                                     data_ == ComtradeData::binary ? "BINARY" : "BINARY32",
                                     samples.size()));
    single_->write(samples);
    single_->commit();
}

}  // namespace sim
