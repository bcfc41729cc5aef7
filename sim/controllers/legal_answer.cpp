#include "sim/controllers/legal_answer.hpp"

#include <fmt/format.h>

#include "firmware/memory/journal.hpp"
#include "firmware/sequence/state.hpp"

namespace sim {

std::string fault_of(const firmware::board::Answer& answer) {
    const firmware::ActuatorFrame& frame = answer.frame;
    const firmware::Telemetry& telemetry = answer.telemetry;
    if (frame.version != firmware::frame_version) {
        return fmt::format("a frame of version {}", frame.version);
    }
    if (frame.gate_on_us > frame.gate_off_us || frame.gate_off_us > firmware::tick_length_us) {
        return fmt::format("a gate pulse from {} to {} us", frame.gate_on_us, frame.gate_off_us);
    }
    if (frame.start_capacitor_contact > 1 || frame.bypass_contact > 1 ||
        frame.contactor_permit > 1) {
        return "a contact that is neither on nor off";
    }
    if (static_cast<unsigned>(telemetry.state) >= firmware::state_count) {
        return fmt::format("state {}", static_cast<unsigned>(telemetry.state));
    }
    if (static_cast<unsigned>(telemetry.reason) >= firmware::reason_count) {
        return fmt::format("reason {}", static_cast<unsigned>(telemetry.reason));
    }
    if (static_cast<int>(telemetry.memory) >= firmware::recovery_count) {
        return fmt::format("memory found {}", static_cast<unsigned>(telemetry.memory));
    }
    return {};
}

}  // namespace sim
