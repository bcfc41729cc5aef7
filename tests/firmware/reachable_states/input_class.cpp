#include "reachable_states/input_class.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "firmware/contract/sensor_scale.hpp"

namespace reachable_states {

namespace {

using Kind = InputClass::Kind;

struct Current {
    const char* name;
    double rms_A;
    bool leads;
    bool one_way;
    double offset_A;
};
// Behind the pulses of probing "moderate" is a motor of 80 A. Of that one's locked-rotor current:
// small 2 %, moderate 25 % (a running motor), large 51 % (a stalled one), beyond 96 %.
constexpr std::array<Current, 9> currents = {{{"no current", 0.0, false, false, 0.0},
                                              {"small current", 1.8, false, false, 0.0},
                                              {"moderate current", 20.0, false, false, 0.0},
                                              {"large current", 40.0, false, false, 0.0},
                                              {"current beyond", 75.0, false, false, 0.0},
                                              {"one half wave", 25.0, false, true, 0.0},
                                              {"leading current", 15.0, true, false, 0.0},
                                              {"large leading current", 40.0, true, false, 0.0},
                                              {"current sensor stuck", 0.0, false, false, 60.0}}};

struct StartTerminal {
    const char* name;
    double of_line;
    bool on_line;
};
constexpr std::array<StartTerminal, 7> start_terminals = {{{"S dead", 0.0, false},
                                                           {"S at standstill", 0.3, false},
                                                           {"S rising", 0.42, false},
                                                           {"S of a slow rotor", 0.65, false},
                                                           {"S of a rotor at speed", 1.2, false},
                                                           {"S with start capacitor", 2.0, false},
                                                           {"S on the line", 1.0, true}}};

struct Line {
    const char* name;
    double rms_V;
    double frequency_Hz;
    bool drifts;
    bool turned_round;
};
constexpr std::array<Line, 8> bad_lines = {{{"no line", 0.0, 50.0, false, false},
                                            {"line low", 60.0, 50.0, false, false},
                                            {"line sags", 125.0, 50.0, false, false},
                                            {"line high", 290.0, 50.0, false, false},
                                            {"line slow at once", 230.0, 44.5, false, false},
                                            {"line slow", 230.0, 46.4, false, false},
                                            {"line ever slower", 230.0, 45.0, true, false},
                                            {"line turned round", 230.0, 50.0, false, true}}};

InputClass with(const Current& current, const StartTerminal& start_terminal) {
    InputClass input;
    input.name = std::string(current.name) + ", " + start_terminal.name;
    input.current_A = current.rms_A;
    input.current_leads = current.leads;
    input.current_one_way = current.one_way;
    input.current_offset_A = current.offset_A;
    input.start_terminal = start_terminal.of_line;
    input.start_terminal_on_line = start_terminal.on_line;
    return input;
}

struct Classes {
    std::vector<InputClass> all;
    std::size_t while_not_fed = 0;
};

Classes make_classes() {
    Classes classes;
    const auto add = [&](InputClass input, const std::string& more) {
        input.name += more;
        classes.all.push_back(std::move(input));
    };
    const InputClass nothing = with(currents[0], start_terminals[0]);
    const InputClass runs = with(currents[2], start_terminals[4]);
    const InputClass climbs = with(currents[2], start_terminals[1]);
    const InputClass shorted = with(currents[4], start_terminals[1]);
    add(nothing, "");
    add(with(currents[8], start_terminals[0]), "");
    add(runs, "");
    for (const Line& line : bad_lines) {
        for (InputClass input : {nothing, runs, climbs, shorted}) {
            input.line_V = line.rms_V;
            input.line_Hz = line.frequency_Hz;
            input.line_drifts = line.drifts;
            input.line_turned_round = line.turned_round;
            add(input, std::string(", ") + line.name);
        }
    }
    for (InputClass input : {nothing, runs}) {
        input.call = false;
        add(input, ", no call");
    }
    InputClass other_version = runs;
    other_version.frame_version_right = false;
    add(other_version, ", other version");
    for (const std::uint32_t ticks : {1U, 5000U, 30000U}) {
        InputClass sleep;
        sleep.kind = Kind::sleep;
        sleep.sleep_ticks = ticks;
        add(sleep, "sleep of " + std::to_string(ticks) + " ticks");
    }
    InputClass cut;
    cut.kind = Kind::power_cut;
    add(cut, "power cut");
    cut.kind = Kind::power_cut_and_damage;
    add(cut, "power cut, store damaged");
    classes.while_not_fed = classes.all.size();
    for (const Current& current : currents) {
        for (const StartTerminal& start_terminal : start_terminals) {
            add(with(current, start_terminal), "");
        }
    }
    return classes;
}

const Classes& classes() {
    static const Classes made = make_classes();
    return made;
}

constexpr std::uint32_t quarter_turn = 0x40000000U;
constexpr unsigned table_bits = 10;

double sine(std::uint32_t turn) {
    static const std::array<double, 1U << table_bits> table = [] {
        std::array<double, 1U << table_bits> made{};
        for (std::size_t i = 0; i < made.size(); ++i) {
            made.at(i) = std::sin(2.0 * std::acos(-1.0) * static_cast<double>(i) /
                                  static_cast<double>(made.size()));
        }
        return made;
    }();
    return table[turn >> (32 - table_bits)];
}

std::uint16_t counts(double value, std::int32_t milli_per_count) {
    const double raw = firmware::adc_midpoint + value * 1000.0 / milli_per_count;
    return static_cast<std::uint16_t>(std::clamp(raw + 0.5, 0.0, 4095.0));
}

}  // namespace

const std::vector<InputClass>& input_classes() {
    return classes().all;
}

std::size_t classes_while_not_fed() {
    return classes().while_not_fed;
}

double next_line_Hz(const InputClass& input, double line_Hz) {
    constexpr double drift_Hz_per_tick = 45.0 / firmware::ticks_per_second;
    return input.line_drifts ? std::max(input.line_Hz, line_Hz - drift_Hz_per_tick) : input.line_Hz;
}

std::uint32_t turn_per_tick(double line_Hz) {
    return static_cast<std::uint32_t>(line_Hz / firmware::ticks_per_second * 4294967296.0);
}

firmware::SensorFrame frame_of(const InputClass& input, std::uint32_t turn) {
    constexpr double crest = 1.4142135623730951;
    const std::uint32_t line = turn + (input.line_turned_round ? 2 * quarter_turn : 0);
    // A motor with its rotor locked lags by some 60 degrees, the start capacitor leads by 80.
    const std::uint32_t current = line + (input.current_leads ? 0x38E38E39U : 0xD5555555U);
    double amperes = input.current_A * crest * sine(current);
    amperes = input.current_one_way && amperes < 0.0 ? 0.0 : amperes;
    const double start_terminal =
        input.start_terminal_on_line
            ? input.line_V * crest * sine(line)
            : input.start_terminal * 230.0 * crest * sine(line + quarter_turn);
    firmware::SensorFrame frame;
    if (!input.frame_version_right) {
        ++frame.version;
    }
    frame.line_voltage_counts =
        counts(input.line_V * crest * sine(line), firmware::line_voltage_mV_per_count);
    frame.output_current_counts =
        counts(amperes + input.current_offset_A, firmware::output_current_mA_per_count);
    frame.start_terminal_voltage_counts =
        counts(start_terminal, firmware::start_terminal_voltage_mV_per_count);
    // Nothing depends on the heatsink: it is shown hot and cold in turns.
    frame.heatsink_counts = static_cast<std::uint16_t>(turn >> 20);
    frame.call_for_cooling = input.call ? 1 : 0;
    return frame;
}

}  // namespace reachable_states
