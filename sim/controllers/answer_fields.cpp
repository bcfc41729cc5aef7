#include "sim/controllers/answer_fields.hpp"

namespace sim {

namespace {

using firmware::board::Answer;

}  // namespace

const std::array<AnswerField, 28>& answer_fields() {
    static constexpr std::array<AnswerField, 28> fields = {{
        {"frame.version",
         [](const Answer& a) { return static_cast<std::int64_t>(a.frame.version); }},
        {"frame.gate_on_us",
         [](const Answer& a) { return static_cast<std::int64_t>(a.frame.gate_on_us); }},
        {"frame.gate_off_us",
         [](const Answer& a) { return static_cast<std::int64_t>(a.frame.gate_off_us); }},
        {"frame.start_capacitor_contact",
         [](const Answer& a) {
             return static_cast<std::int64_t>(a.frame.start_capacitor_contact);
         }},
        {"frame.bypass_contact",
         [](const Answer& a) { return static_cast<std::int64_t>(a.frame.bypass_contact); }},
        {"frame.contactor_permit",
         [](const Answer& a) { return static_cast<std::int64_t>(a.frame.contactor_permit); }},
        {"frame.reserved",
         [](const Answer& a) { return static_cast<std::int64_t>(a.frame.reserved); }},
        {"frame.status", [](const Answer& a) { return static_cast<std::int64_t>(a.frame.status); }},
        {"command.kind", [](const Answer& a) { return static_cast<std::int64_t>(a.command.kind); }},
        {"command.page", [](const Answer& a) { return static_cast<std::int64_t>(a.command.page); }},
        {"command.index",
         [](const Answer& a) { return static_cast<std::int64_t>(a.command.index); }},
        {"command.word", [](const Answer& a) { return static_cast<std::int64_t>(a.command.word); }},
        {"telemetry.state",
         [](const Answer& a) { return static_cast<std::int64_t>(a.telemetry.state); }},
        {"telemetry.reason",
         [](const Answer& a) { return static_cast<std::int64_t>(a.telemetry.reason); }},
        {"telemetry.stage",
         [](const Answer& a) { return static_cast<std::int64_t>(a.telemetry.stage); }},
        {"telemetry.tries_made",
         [](const Answer& a) { return static_cast<std::int64_t>(a.telemetry.tries_made); }},
        {"telemetry.line_locked",
         [](const Answer& a) { return static_cast<std::int64_t>(a.telemetry.line_locked); }},
        {"telemetry.line_frequency_mHz",
         [](const Answer& a) { return static_cast<std::int64_t>(a.telemetry.line_frequency_mHz); }},
        {"telemetry.line_voltage_rms_mV",
         [](const Answer& a) {
             return static_cast<std::int64_t>(a.telemetry.line_voltage_rms_mV);
         }},
        {"telemetry.output_current_rms_mA",
         [](const Answer& a) {
             return static_cast<std::int64_t>(a.telemetry.output_current_rms_mA);
         }},
        {"telemetry.start_terminal_voltage_rms_mV",
         [](const Answer& a) {
             return static_cast<std::int64_t>(a.telemetry.start_terminal_voltage_rms_mV);
         }},
        {"telemetry.line_phase",
         [](const Answer& a) { return static_cast<std::int64_t>(a.telemetry.line_phase); }},
        {"telemetry.firing_angle_mdeg",
         [](const Answer& a) { return static_cast<std::int64_t>(a.telemetry.firing_angle_mdeg); }},
        {"telemetry.locked_rotor_estimate_mA",
         [](const Answer& a) {
             return static_cast<std::int64_t>(a.telemetry.locked_rotor_estimate_mA);
         }},
        {"telemetry.learned_level_permille",
         [](const Answer& a) {
             return static_cast<std::int64_t>(a.telemetry.learned_level_permille);
         }},
        {"telemetry.memory",
         [](const Answer& a) { return static_cast<std::int64_t>(a.telemetry.memory); }},
        {"telemetry.learning_settled",
         [](const Answer& a) { return static_cast<std::int64_t>(a.telemetry.learning_settled); }},
        {"telemetry.start_capacitor_absent",
         [](const Answer& a) {
             return static_cast<std::int64_t>(a.telemetry.start_capacitor_absent);
         }},
    }};
    return fields;
}

const AnswerField* first_difference(const Answer& one, const Answer& other) {
    for (const AnswerField& field : answer_fields()) {
        if (field.value(one) != field.value(other)) {
            return &field;
        }
    }
    return nullptr;
}

}  // namespace sim
