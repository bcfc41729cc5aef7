#include "sim/recorder/vcd_trace.hpp"

#include <cmath>
#include <iterator>
#include <utility>

#include "firmware/sequence/state.hpp"
#include "sim/timeline/tick.hpp"

namespace sim {

namespace {

constexpr std::int64_t tick_us = firmware::tick_length_us;

/// A short name of printable characters, a different one for each index.
std::string code_of(std::size_t index) {
    constexpr std::size_t first = '!';
    constexpr std::size_t count = '~' - '!' + 1;
    std::string code;
    do {
        code += static_cast<char>(first + index % count);
        index /= count;
    } while (index > 0);
    return code;
}

/// A simple identifier of the standard: letters, digits, $ and _, no digit first.
std::string identifier(const std::string& name) {
    std::string text;
    for (const char letter : name) {
        const bool fits = (letter >= 'a' && letter <= 'z') || (letter >= 'A' && letter <= 'Z') ||
                          (letter >= '0' && letter <= '9') || letter == '_';
        text += fits ? letter : '_';
    }
    const bool has_digit_first = !text.empty() && text.front() >= '0' && text.front() <= '9';
    return text.empty() || has_digit_first ? "_" + text : text;
}

const char* scope_of(TraceOrigin origin) {
    switch (origin) {
        case TraceOrigin::plant:
            return "plant";
        case TraceOrigin::commands:
            return "commands";
        case TraceOrigin::controller:
            return "controller";
        case TraceOrigin::watch:
            break;
    }
    return "watch";
}

void write_bits(fmt::memory_buffer& to, std::int64_t number, int bits) {
    const auto word = static_cast<std::uint64_t>(number);
    to.push_back('b');
    // What is left off in front reads as 0.
    int highest = bits - 1;
    while (highest > 0 && ((word >> static_cast<unsigned>(highest)) & 1U) == 0) {
        --highest;
    }
    for (int bit = highest; bit >= 0; --bit) {
        to.push_back(((word >> static_cast<unsigned>(bit)) & 1U) != 0 ? '1' : '0');
    }
    to.push_back(' ');
}

void write_value(fmt::memory_buffer& to, const TraceChannel& channel, double value) {
    to.clear();
    if (channel.bits == 1) {
        to.push_back(value != 0.0 ? '1' : '0');
    } else if (channel.bits > 1) {
        write_bits(to, std::llround(value), channel.bits);
    } else {
        fmt::format_to(std::back_inserter(to), "r{:.{}f} ", value + 0.0, channel.digits);
    }
}

std::string named_numbers() {
    std::string text = "$comment\n";
    for (std::uint8_t k = 0; k < firmware::state_count; ++k) {
        text += fmt::format("  state {} = {}\n", k, name_of(static_cast<firmware::State>(k)));
    }
    for (std::uint8_t k = 0; k < firmware::reason_count; ++k) {
        text += fmt::format("  reason {} = {}\n", k, name_of(static_cast<firmware::Reason>(k)));
    }
    return text + "$end\n";
}

}  // namespace

VcdTrace::VcdTrace(AtomicOutput& output, std::vector<TraceChannel> channels) : output_(output) {
    for (TraceChannel& channel : channels) {
        take(std::move(channel));
    }
    gate_code_ = code_of(signals_.size());
    write_header();
}

void VcdTrace::take(TraceChannel channel) {
    const bool is_gate_edge = channel.origin == TraceOrigin::commands && channel.bits != 1;
    const bool is_wave = channel.origin == TraceOrigin::plant && channel.bits == 0;
    if (is_gate_edge || is_wave) {
        return;
    }
    Signal signal;
    signal.scope = scope_of(channel.origin);
    std::string name = channel.name;
    const std::size_t point = name.find('.');
    if (channel.origin == TraceOrigin::watch && point != std::string::npos) {
        signal.scope += "." + identifier(name.substr(0, point));
        name = name.substr(point + 1);
    }
    signal.name = identifier(name);
    signal.code = code_of(signals_.size());
    signal.channel = std::move(channel);
    signals_.push_back(std::move(signal));
}

void VcdTrace::write_header() {
    std::string text = "$version runup $end\n" + named_numbers() + "$timescale 1 us $end\n";
    const auto declare = [&text](const Signal& signal) {
        const int bits = signal.channel.bits;
        text +=
            fmt::format("$var {} {} {} {} $end\n",
                        bits == 0   ? "real"
                        : bits == 1 ? "wire"
                                    : "reg",
                        bits == 0 ? 64 : bits, signal.code,
                        bits > 1 ? fmt::format("{} [{}:0]", signal.name, bits - 1) : signal.name);
    };
    std::string open;
    const auto close = [&] {
        const bool is_nested = open.find('.') != std::string::npos;
        text += open.empty() ? ""
                : is_nested  ? "$upscope $end\n$upscope $end\n"
                             : "$upscope $end\n";
    };
    const auto enter = [&](const std::string& scope) {
        close();
        const std::size_t point = scope.find('.');
        text += "$scope module " + scope.substr(0, point) + " $end\n";
        if (point != std::string::npos) {
            text += "$scope module " + scope.substr(point + 1) + " $end\n";
        }
        if (scope == scope_of(TraceOrigin::commands)) {
            text += "$var wire 1 " + gate_code_ + " gate $end\n";
        }
        open = scope;
    };
    for (const Signal& signal : signals_) {
        if (signal.scope != open) {
            enter(signal.scope);
        }
        declare(signal);
    }
    close();
    output_.write(text + "$enddefinitions $end\n");
}

void VcdTrace::observe(const TickView& view) {
    const std::int64_t now_us = view.time.count() / 1000;
    if (!has_begun_) {
        move_to(now_us);
        output_.write("$dumpvars\n");
        write_signals(view, true);
        write_signals(view, false);
        output_.write("0" + gate_code_ + "\n$end\n");
        has_begun_ = true;
        return;
    }
    // The commands of the tick that ends here have been in force since its beginning.
    move_to(now_us - tick_us);
    write_signals(view, true);
    write_gate(view.commands, now_us - tick_us);
    move_to(now_us);
    write_signals(view, false);
}

void VcdTrace::write_signals(const TickView& view, bool commanded) {
    for (Signal& signal : signals_) {
        if ((signal.channel.origin == TraceOrigin::commands) != commanded) {
            continue;
        }
        write_value(value_, signal.channel, signal.channel.value(view));
        const std::string_view text(value_.data(), value_.size());
        if (signal.written != text) {
            signal.written.assign(text);
            value_.append(signal.code);
            value_.push_back('\n');
            output_.write({value_.data(), value_.size()});
        }
    }
}

void VcdTrace::write_gate(const PowerCommands& commands, std::int64_t tick_begin_us) {
    const std::int64_t on_us = commands.gate_on.count() / 1000;
    const std::int64_t off_us = commands.gate_off.count() / 1000;
    const bool has_pulse = off_us > on_us;
    // A pulse that lasted to the end of the last tick goes on from 0 without a break.
    if (gate_is_on_ && !(has_pulse && on_us == 0)) {
        set_gate(false, tick_begin_us);
    }
    if (has_pulse && !gate_is_on_) {
        set_gate(true, tick_begin_us + on_us);
    }
    if (has_pulse && off_us < tick_us) {
        set_gate(false, tick_begin_us + off_us);
    }
}

void VcdTrace::set_gate(bool is_on, std::int64_t at_us) {
    move_to(at_us);
    output_.write((is_on ? "1" : "0") + gate_code_ + "\n");
    gate_is_on_ = is_on;
}

void VcdTrace::move_to(std::int64_t at_us) {
    if (at_us > written_us_) {
        output_.write(fmt::format("#{}\n", at_us));
        written_us_ = at_us;
    }
}

}  // namespace sim
