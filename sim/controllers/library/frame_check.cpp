#include "sim/controllers/library/frame_check.hpp"

#include <fmt/format.h>

#include "firmware/sequence/state.hpp"

namespace sim {

std::string broken_contract(const firmware::ActuatorFrame& frame, bool tells_states) {
    if (frame.version != firmware::frame_version) {
        return fmt::format("version {} instead of {}", frame.version, firmware::frame_version);
    }
    if (frame.gate_on_us > frame.gate_off_us || frame.gate_off_us > firmware::tick_length_us) {
        return fmt::format("a gate pulse from {} to {} us in a tick of {} us", frame.gate_on_us,
                           frame.gate_off_us, firmware::tick_length_us);
    }
    const auto coil = [](const char* name, int value) {
        return value > 1 ? fmt::format("{} {}, which is 0 or 1", name, value) : std::string();
    };
    for (const std::string& problem :
         {coil("start_capacitor_contact", frame.start_capacitor_contact),
          coil("bypass_contact", frame.bypass_contact),
          coil("contactor_permit", frame.contactor_permit)}) {
        if (!problem.empty()) {
            return problem;
        }
    }
    if (frame.reserved != 0) {
        return fmt::format("reserved {}, which is always 0", frame.reserved);
    }
    const int state = frame.status & 0xFF;
    const int reason = frame.status >> 8;
    if (tells_states && state >= firmware::state_count) {
        return fmt::format("state {}, of which there are {}", state, firmware::state_count);
    }
    if (tells_states && reason >= firmware::reason_count) {
        return fmt::format("reason {}, of which there are {}", reason, firmware::reason_count);
    }
    return {};
}

}  // namespace sim
