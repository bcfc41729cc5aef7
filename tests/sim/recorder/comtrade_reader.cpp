#include "recorder/comtrade_reader.hpp"

#include <cstdlib>
#include <regex>
#include <stdexcept>

#include "recorder/traced_start.hpp"

namespace sim_test {

namespace {

void hold(bool is_held, const std::string& rule) {
    if (!is_held) {
        throw std::runtime_error("COMTRADE: " + rule);
    }
}

/// Lines end in carriage return and line feed (4.4.2).
std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines = split(text, '\n');
    hold(lines.back().empty(), "the last line ends, too");
    lines.pop_back();
    for (std::string& line : lines) {
        hold(!line.empty() && line.back() == '\r', "lines end in CR LF: " + line);
        line.pop_back();
    }
    return lines;
}

double real(const std::string& text) {
    static const std::regex form("[+-]?[0-9]+(\\.[0-9]*)?([Ee][+-]?[0-9]+)?");
    hold(std::regex_match(text, form), "a real number: " + text);
    hold(text.size() <= 32, "at most 32 characters: " + text);
    return std::strtod(text.c_str(), nullptr);
}

std::int64_t whole(const std::string& text) {
    static const std::regex form("[+-]?[0-9]+");
    hold(std::regex_match(text, form), "a whole number: " + text);
    return std::strtoll(text.c_str(), nullptr, 10);
}

std::size_t count_with_letter(const std::string& text, char letter) {
    hold(!text.empty() && text.back() == letter, std::string("a count with ") + letter);
    return static_cast<std::size_t>(whole(text.substr(0, text.size() - 1)));
}

ComtradeAnalog analog_of(const std::string& line, std::size_t number) {
    // An,ch_id,ph,ccbm,uu,a,b,skew,min,max,primary,secondary,PS
    const std::vector<std::string> fields = split(line, ',');
    hold(fields.size() == 13, "thirteen fields of an analog channel: " + line);
    hold(whole(fields[0]) == static_cast<std::int64_t>(number), "channels count from 1: " + line);
    hold(!fields[1].empty() && fields[1].size() <= 128, "1 to 128 characters name a channel");
    hold(fields[2].size() <= 2 && fields[3].size() <= 64, "phase and component");
    hold(!fields[4].empty() && fields[4].size() <= 32, "a unit of 1 to 32 characters: " + line);
    ComtradeAnalog channel;
    channel.name = fields[1];
    channel.unit = fields[4];
    channel.a = real(fields[5]);
    channel.b = real(fields[6]);
    hold(channel.a != 0.0, "a scale that is not 0");
    hold(real(fields[7]) == 0.0, "no skew here: all channels are sampled at once");
    channel.least = whole(fields[8]);
    channel.most = whole(fields[9]);
    hold(channel.least < channel.most, "min below max");
    hold(real(fields[10]) == real(fields[11]), "primary to secondary is 1 for a simulation");
    hold(fields[12] == "P" || fields[12] == "S", "P or S");
    return channel;
}

std::uint64_t little_endian(const std::string& bytes, std::size_t at, std::size_t count) {
    std::uint64_t word = 0;
    for (std::size_t k = count; k > 0; --k) {
        word = (word << 8U) | static_cast<unsigned char>(bytes.at(at + k - 1));
    }
    return word;
}

void add_value(ComtradeRecord& record, std::size_t channel, std::int64_t number) {
    const ComtradeAnalog& analog = record.analogs[channel];
    hold(number >= analog.least && number <= analog.most, "a value from min to max");
    record.values[channel].push_back(analog.a * static_cast<double>(number) + analog.b);
}

void read_binary(ComtradeRecord& record, const std::string& data, std::size_t value_bytes) {
    const std::size_t words = (record.digitals.size() + 15) / 16;
    const std::size_t length = 8 + value_bytes * record.analogs.size() + 2 * words;
    hold(data.size() % length == 0, "whole samples");
    for (std::size_t at = 0; at < data.size(); at += length) {
        hold(little_endian(data, at, 4) == at / length + 1, "samples count from 1");
        record.times.push_back(static_cast<std::int64_t>(little_endian(data, at + 4, 4)));
        std::size_t from = at + 8;
        for (std::size_t k = 0; k < record.analogs.size(); ++k, from += value_bytes) {
            const std::uint64_t word = little_endian(data, from, value_bytes);
            // 0x8000 and 0x80000000 mark a value that is missing.
            hold(word != (value_bytes == 2 ? 0x8000U : 0x80000000U), "no value is missing");
            add_value(record, k,
                      value_bytes == 2 ? static_cast<std::int16_t>(word)
                                       : static_cast<std::int32_t>(word));
        }
        for (std::size_t k = 0; k < record.digitals.size(); ++k) {
            const std::uint64_t word = little_endian(data, from + 2 * (k / 16), 2);
            record.flags[k].push_back(((word >> (k % 16)) & 1U) != 0);
        }
        const std::size_t used = record.digitals.size() % 16;
        const std::uint64_t last = words == 0 ? 0 : little_endian(data, from + 2 * words - 2, 2);
        hold(used == 0 || last >> used == 0, "bits beyond the last channel are 0");
    }
}

void read_ascii(ComtradeRecord& record, const std::string& data) {
    for (const std::string& line : lines_of(data)) {
        const std::vector<std::string> fields = split(line, ',');
        hold(fields.size() == 2 + record.analogs.size() + record.digitals.size(),
             "number, time, and a field for every channel");
        hold(whole(fields[0]) == static_cast<std::int64_t>(record.times.size()) + 1,
             "samples count from 1");
        record.times.push_back(whole(fields[1]));
        for (std::size_t k = 0; k < record.analogs.size(); ++k) {
            add_value(record, k, whole(fields[2 + k]));
        }
        for (std::size_t k = 0; k < record.digitals.size(); ++k) {
            const std::string& field = fields[2 + record.analogs.size() + k];
            hold(field == "0" || field == "1", "a digital channel is 0 or 1");
            record.flags[k].push_back(field == "1");
        }
    }
}

}  // namespace

ComtradeRecord read_comtrade(const std::string& configuration, const std::string& data) {
    const std::vector<std::string> lines = lines_of(configuration);
    ComtradeRecord record;
    const std::vector<std::string> head = split(lines.at(0), ',');
    hold(head.size() == 3 && head[2] == "2013", "station, device, and the edition's year");
    record.station = head[0];
    record.device = head[1];
    const std::vector<std::string> counts = split(lines.at(1), ',');
    hold(counts.size() == 3, "total, analog and digital channels");
    const std::size_t analogs = count_with_letter(counts[1], 'A');
    const std::size_t digitals = count_with_letter(counts[2], 'D');
    hold(whole(counts[0]) == static_cast<std::int64_t>(analogs + digitals), "the total is both");
    std::size_t at = 2;
    for (std::size_t k = 1; k <= analogs; ++k) {
        record.analogs.push_back(analog_of(lines.at(at++), k));
    }
    for (std::size_t k = 1; k <= digitals; ++k) {
        // Dn,ch_id,ph,ccbm,y
        const std::vector<std::string> fields = split(lines.at(at++), ',');
        hold(fields.size() == 5 && whole(fields[0]) == static_cast<std::int64_t>(k),
             "five fields of a digital channel");
        hold(fields[4] == "0" || fields[4] == "1", "its normal state");
        record.digitals.push_back(fields[1]);
    }
    record.line_Hz = real(lines.at(at++));
    const std::string rates = lines.at(at++);
    hold(rates == "0" || rates == "1", "one sampling rate, or none");
    const std::vector<std::string> rate = split(lines.at(at++), ',');
    hold(rate.size() == 2, "samples per second, and the last sample at that rate");
    record.samples_per_s = real(rate[0]);
    // Without a rate the times of the samples are critical; that line stands there all the same.
    hold((record.samples_per_s == 0.0) == (rates == "0"), "0 samples per second without a rate");
    const std::regex date(
        "[0-3][0-9]/[01][0-9]/[0-9]{4},[0-2][0-9]:[0-5][0-9]:[0-5][0-9]\\.[0-9]{6}");
    record.first = lines.at(at++);
    record.trigger = lines.at(at++);
    hold(std::regex_match(record.first, date) && std::regex_match(record.trigger, date),
         "dd/mm/yyyy,hh:mm:ss.ssssss");
    record.type = lines.at(at++);
    record.time_factor = real(lines.at(at++));
    hold(split(lines.at(at++), ',').size() == 2, "time code, local code");
    hold(std::regex_match(lines.at(at++), std::regex("[0-9A-F],[0-3]")),
         "time quality, leap second");
    hold(at == lines.size(), "nothing more");

    record.values.resize(analogs);
    record.flags.resize(digitals);
    if (record.type == "ASCII") {
        read_ascii(record, data);
    } else {
        hold(record.type == "BINARY" || record.type == "BINARY32", "a data type: " + record.type);
        read_binary(record, data, record.type == "BINARY" ? 2 : 4);
    }
    hold(whole(rate[1]) == static_cast<std::int64_t>(record.times.size()),
         "the last sample of the only rate is the last of all");
    return record;
}

ComtradeRecord read_single_file(const std::string& bytes) {
    // --- file type: CFG ---, INF, HDR, DAT in this order; binary data with their length.
    const auto section = [&bytes](const std::string& heading, std::size_t& from) {
        const std::string line = "--- file type: " + heading;
        const std::size_t at = bytes.find(line);
        hold(at != std::string::npos, "a section " + heading);
        from = bytes.find("\r\n", at) + 2;
        return at;
    };
    std::size_t configuration_from = 0;
    std::size_t ignored = 0;
    std::size_t data_from = 0;
    hold(section("CFG ---", configuration_from) == 0, "the configuration comes first");
    const std::size_t information = section("INF ---", ignored);
    const std::size_t header = section("HDR ---", ignored);
    const std::size_t data = section("DAT ", data_from);
    hold(configuration_from < information && information < header && header < data,
         "the order of the sections");
    const std::string heading = bytes.substr(data, data_from - data);
    const std::regex form("--- file type: DAT (ASCII|BINARY: [0-9]+|BINARY32: [0-9]+) ---\r\n");
    hold(std::regex_match(heading, form), "the heading of the data: " + heading);
    const std::size_t colon = heading.rfind(": ");
    if (heading.find("ASCII") == std::string::npos) {
        hold(std::strtoull(heading.c_str() + colon + 2, nullptr, 10) == bytes.size() - data_from,
             "as many bytes as the heading says");
    }
    const std::string configuration =
        bytes.substr(configuration_from, information - configuration_from);
    return read_comtrade(configuration, bytes.substr(data_from));
}

}  // namespace sim_test
