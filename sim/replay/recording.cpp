#include "sim/replay/recording.hpp"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <limits>
#include <nlohmann/json.hpp>
#include <string_view>

#include "plant_models/supplies/supply_list.hpp"
#include "sim/controllers/commissioned_store.hpp"
#include "sim/controllers/installed_settings.hpp"
#include "sim/files/bounded_input.hpp"
#include "sim/files/input_error.hpp"
#include "sim/files/quoting.hpp"
#include "sim/replay/recorded_settings.hpp"

namespace sim {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view schema = "runup.recording/1";
constexpr std::string_view columns =
    "line_voltage_counts,output_current_counts,start_terminal_voltage_counts,heatsink_counts,"
    "call_for_cooling,gate_on_us,gate_off_us,start_capacitor_contact,bypass_contact,"
    "contactor_permit,status";
constexpr std::size_t column_count = 11;

/// Five hours at tick rate: 180 million ticks of 40 bytes would not fit a memory either.
constexpr std::size_t most_bytes = std::size_t{1} << 30U;

struct TornWord {
    std::string_view word;
    Torn torn;
};
constexpr std::array<TornWord, torn_count> torn_words = {{{"untouched", Torn::untouched},
                                                          {"in_part", Torn::in_part},
                                                          {"garbage", Torn::garbage},
                                                          {"reads_as_done", Torn::reads_as_done}}};

std::string page_text(const std::uint32_t (&words)[firmware::store_page_words]) {
    std::string text;
    for (const std::uint32_t word : words) {
        text += fmt::format("{:08x}", word);
    }
    return text;
}

/// Goes through a recording line by line.
class Lines {
  public:
    Lines(const std::string& text, std::string file) : rest_(text), file_(std::move(file)) {}

    bool next(std::string_view& line) {
        if (rest_.empty()) {
            return false;
        }
        const std::size_t end = std::min(rest_.find('\n'), rest_.size());
        line = rest_.substr(0, end);
        if (!line.empty() && line.back() == '\r') {
            line.remove_suffix(1);
        }
        rest_.remove_prefix(std::min(end + 1, rest_.size()));
        ++number_;
        return true;
    }

    [[noreturn]] void fail(const std::string& fault, const std::string& key = "") const {
        throw InputError(file_, number_, key, fault);
    }

    const std::string& file() const { return file_; }

  private:
    std::string_view rest_;
    std::string file_;
    int number_ = 0;
};

std::string_view cut_field(std::string_view& line) {
    const std::size_t end = std::min(line.find(','), line.size());
    const std::string_view field = line.substr(0, end);
    line.remove_prefix(std::min(end + 1, line.size()));
    return field;
}

template <class Number>
Number whole_number(const Lines& lines, std::string_view text, int base = 10) {
    Number number{};
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number, base);
    if (error != std::errc() || end != text.data() + text.size()) {
        lines.fail(fmt::format("{} is not accepted; give a whole number from 0 to {}", quoted(text),
                               std::numeric_limits<Number>::max()));
    }
    return number;
}

RecordedEvent step_of(const Lines& lines, std::string_view line) {
    std::array<std::uint16_t, column_count> cells{};
    std::string_view rest = line;
    for (std::size_t k = 0; k < column_count; ++k) {
        if (rest.empty()) {
            lines.fail(
                fmt::format("{} is not accepted; give {} whole numbers with commas between "
                            "them, or power_lost, power_came, rest or end",
                            quoted(line), column_count));
        }
        cells[k] = whole_number<std::uint16_t>(lines, cut_field(rest));
    }
    if (!rest.empty()) {
        lines.fail(fmt::format("more than {} columns", column_count));
    }
    RecordedEvent event;
    event.samples = {firmware::frame_version, cells[0], cells[1], cells[2], cells[3], cells[4]};
    event.answer.gate_on_us = cells[5];
    event.answer.gate_off_us = cells[6];
    event.answer.start_capacitor_contact = static_cast<std::uint8_t>(cells[7]);
    event.answer.bypass_contact = static_cast<std::uint8_t>(cells[8]);
    event.answer.contactor_permit = static_cast<std::uint8_t>(cells[9]);
    event.answer.status = cells[10];
    return event;
}

RecordedEvent power_lost_of(const Lines& lines, std::string_view rest) {
    RecordedEvent event;
    event.kind = RecordedEvent::Kind::power_lost;
    const std::string_view word = cut_field(rest);
    bool is_known = false;
    for (const TornWord& row : torn_words) {
        if (row.word == word) {
            event.torn = row.torn;
            is_known = true;
        }
    }
    if (!is_known) {
        lines.fail(quoted(word) +
                   " is not accepted; give untouched, in_part, garbage or reads_as_done");
    }
    event.seed = whole_number<std::uint32_t>(lines, rest);
    return event;
}

void read_page(const Lines& lines, const Json& text,
               std::uint32_t (&words)[firmware::store_page_words]) {
    constexpr std::size_t digits = 8;
    if (!text.is_string() ||
        text.get<std::string>().size() != digits * firmware::store_page_words) {
        lines.fail("give two pages of 512 hexadecimal digits", "store");
    }
    const std::string page = text.get<std::string>();
    for (std::size_t k = 0; k < firmware::store_page_words; ++k) {
        words[k] = whole_number<std::uint32_t>(
            lines, std::string_view(page).substr(digits * k, digits), 16);
    }
}

RecordedBeginning beginning_of(const Lines& lines, std::string_view line) {
    const Json json = Json::parse(line, nullptr, false);
    if (!json.is_object() || !json.contains("schema") || json["schema"] != schema) {
        lines.fail("this is no recording; give a file that runup start --record has written");
    }
    RecordedBeginning beginning;
    const auto value = [&json](const char* key) { return json.contains(key) ? json[key] : Json(); };
    if (value("frame_version") != firmware::frame_version) {
        lines.fail(fmt::format("recorded with another version of the frames; give a recording of "
                               "version {}",
                               firmware::frame_version),
                   "frame_version");
    }
    beginning.scenario = json.contains("scenario") && json["scenario"].is_string()
                             ? json["scenario"].get<std::string>()
                             : std::string();
    const Json frequency = value("frequency_Hz");
    beginning.frequency_Hz = frequency.is_number() ? frequency.get<double>() : 0.0;
    const Json pages = value("store");
    if (!pages.is_array() || pages.size() != firmware::store_page_count) {
        lines.fail("give two pages of 512 hexadecimal digits", "store");
    }
    for (std::size_t page = 0; page < firmware::store_page_count; ++page) {
        read_page(lines, pages[page], beginning.store.words[page]);
    }
    const Json erase = value("page_erase_ticks");
    if (!erase.is_number_unsigned() || erase.get<std::uint64_t>() < 1 ||
        erase.get<std::uint64_t>() > 100000) {
        lines.fail("give a whole number from 1 to 100000", "page_erase_ticks");
    }
    beginning.page_erase = firmware::Ticks{erase.get<std::uint32_t>()};
    const Json settings = value("settings");
    if (settings.is_object()) {
        beginning.settings = settings_from_json(settings, lines.file());
    }
    return beginning;
}

}  // namespace

RecordingWriter::RecordingWriter(AtomicOutput& output, const RecordedBeginning& beginning)
    : output_(output) {
    Json json;
    json["schema"] = schema;
    json["scenario"] = beginning.scenario;
    json["frequency_Hz"] = beginning.frequency_Hz;
    json["frame_version"] = firmware::frame_version;
    json["page_erase_ticks"] = beginning.page_erase.count();
    json["store"] = {page_text(beginning.store.words[0]), page_text(beginning.store.words[1])};
    json["settings"] = beginning.settings ? settings_json(*beginning.settings) : Json();
    output_.write(json.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n");
    output_.write(std::string(columns) + "\n");
}

void RecordingWriter::stepped(const firmware::SensorFrame& samples,
                              const firmware::ActuatorFrame& answer) {
    ++steps_;
    fmt::memory_buffer line;
    fmt::format_to(std::back_inserter(line), "{},{},{},{},{},{},{},{},{},{},{}\n",
                   samples.line_voltage_counts, samples.output_current_counts,
                   samples.start_terminal_voltage_counts, samples.heatsink_counts,
                   samples.call_for_cooling, answer.gate_on_us, answer.gate_off_us,
                   answer.start_capacitor_contact, answer.bypass_contact, answer.contactor_permit,
                   answer.status);
    output_.write({line.data(), line.size()});
}

void RecordingWriter::rested(firmware::Ticks ticks) {
    output_.write(fmt::format("rest,{}\n", ticks.count()));
}

void RecordingWriter::power_lost(Torn torn, std::uint32_t seed) {
    for (const TornWord& row : torn_words) {
        if (row.torn == torn) {
            output_.write(fmt::format("power_lost,{},{}\n", row.word, seed));
        }
    }
}

void RecordingWriter::power_came() {
    output_.write("power_came\n");
}

void RecordingWriter::finish() {
    output_.write(fmt::format("end,{}\n", steps_));
}

RecordedBeginning recorded_beginning(const Scenario& scenario) {
    RecordedBeginning beginning;
    beginning.scenario = scenario.name;
    beginning.frequency_Hz = plant_models::nominal_frequency_Hz(scenario.source);
    if (const firmware::Settings* settings = settings_of(scenario.limiter)) {
        beginning.settings = as_installed(*settings, scenario.motor);
    }
    beginning.store = commissioned_store();
    return beginning;
}

Recording read_recording(const std::string& path) {
    const std::string text = read_bounded_input(path, most_bytes);
    Lines lines(text, input_name(path));
    std::string_view line;
    if (!lines.next(line)) {
        lines.fail("the file is empty; give a file that runup start --record has written");
    }
    Recording recording;
    recording.beginning = beginning_of(lines, line);
    if (!lines.next(line) || line != columns) {
        lines.fail("give the names of the columns: " + std::string(columns));
    }
    std::int64_t steps = 0;
    while (lines.next(line)) {
        std::string_view rest = line;
        const std::string_view first = cut_field(rest);
        if (first == "end") {
            if (whole_number<std::uint32_t>(lines, rest) != steps || lines.next(line)) {
                lines.fail("the end of the recording does not fit its ticks; record it again");
            }
            return recording;
        }
        RecordedEvent event;
        if (first == "power_lost") {
            event = power_lost_of(lines, rest);
        } else if (first == "power_came") {
            event.kind = RecordedEvent::Kind::power_came;
        } else if (first == "rest") {
            event.kind = RecordedEvent::Kind::rest;
            event.ticks = firmware::Ticks{whole_number<std::uint32_t>(lines, rest)};
        } else {
            event = step_of(lines, line);
            ++steps;
        }
        recording.events.push_back(event);
    }
    lines.fail("the recording is cut short: its last line, end, is missing; record it again");
}

}  // namespace sim
