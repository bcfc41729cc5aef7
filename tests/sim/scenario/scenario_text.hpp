// A right scenario as text, and small ways to make it wrong.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

#include "sim/scenario/scenario_reader.hpp"

namespace sim_test {

/// Line numbers matter to the tests: [motor] is line 1, [load] 16, [source] 22, [limiter] 29.
inline std::string right_scenario() {
    return R"([motor]
poles = 4
rated_voltage_V = 230
rated_frequency_Hz = 50
main_resistance_ohm = 1.5
main_leakage_reactance_ohm = 2.5
aux_resistance_ohm = 4.5
aux_leakage_reactance_ohm = 3.5
turns_ratio = 1.25
rotor_resistance_ohm = 2.25
rotor_leakage_reactance_ohm = 2.75
magnetizing_reactance_ohm = 60
inertia_kg_m2 = 0.0075
run_capacitor_uF = 30

[load]
kind = "polynomial"
breakaway_torque_Nm = 1.5
constant_torque_Nm = 1.25
square_torque_Nm = 5
reference_speed_rpm = 1450
[source]
kind = "grid"
voltage_V = 235.5
frequency_Hz = 50
resistance_ohm = 0.25
inductance_mH = 0.5
phase_deg = 90
[limiter]
kind = "none"
)";
}

/// `text` with the one place where `from` stands replaced.
inline std::string replaced(std::string text, std::string_view from, std::string_view to) {
    const std::size_t at = text.find(from);
    if (at == std::string::npos) {
        throw std::logic_error("not in the text: " + std::string(from));
    }
    return text.replace(at, from.size(), to);
}

/// What reading `text` as "cellar.toml" ends in: the error's sentence, or "was read".
inline std::string fault_of(const std::string& text) {
    try {
        sim::parse_scenario(text, "cellar.toml");
    } catch (const sim::InputError& error) {
        return error.what();
    }
    return "was read";
}

/// The same for the right scenario with one replacement.
inline std::string fault_with(std::string_view from, std::string_view to) {
    return fault_of(replaced(right_scenario(), from, to));
}

}  // namespace sim_test
