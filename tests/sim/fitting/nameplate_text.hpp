// A right nameplate as text, ways to change it, and what reading it ends in.
#pragma once

#include <string>
#include <string_view>

#include "sim/files/input_error.hpp"
#include "sim/fitting/fit_file.hpp"
#include "sim/fitting/nameplate_reader.hpp"

namespace sim_test {

/// [nameplate] is line 1; the keys follow from line 2 in this order.
inline std::string right_nameplate() {
    return R"([nameplate]
voltage_V = 230
frequency_Hz = 60
rated_load_current_A = 17.6
locked_rotor_current_A = 90
run_capacitor_uF = 40
shaft_power_W = 3300
)";
}

/// `text` with the line that gives `key` replaced by `line` (none: left out).
inline std::string with_line(std::string text, std::string_view key, std::string_view line) {
    const std::size_t at = text.find("\n" + std::string(key) + " =") + 1;
    const std::size_t end = text.find('\n', at) + 1;
    return text.replace(at, end - at, line.empty() ? "" : std::string(line) + "\n");
}

inline std::string right_nameplate_with(std::string_view key, std::string_view line) {
    return with_line(right_nameplate(), key, line);
}

/// A nameplate of a 208/230 V, 60 Hz outdoor unit.
inline std::string outdoor_unit(double tons, double rated_A, double locked_A, double capacitor_uF) {
    return "[nameplate]\nlowest_voltage_V = 208\nhighest_voltage_V = 230\nfrequency_Hz = 60\n"
           "rated_load_current_A = " +
           std::to_string(rated_A) + "\nlocked_rotor_current_A = " + std::to_string(locked_A) +
           "\nrun_capacitor_uF = " + std::to_string(capacitor_uF) +
           "\ncooling_capacity_W = " + std::to_string(3517.0 * tons) + "\n";
}

/// The error's sentence, or "was fitted".
inline std::string nameplate_fault(const std::string& text) {
    try {
        sim::fit_nameplate_text(text, "unit.toml");
    } catch (const sim::InputError& error) {
        return error.what();
    }
    return "was fitted";
}

}  // namespace sim_test
