#include "sim/actuators/power_stage.hpp"

#include <fmt/format.h>

#include <stdexcept>

namespace sim {

PowerCommands drive(const firmware::ActuatorFrame& frame, bool call_for_cooling) {
    if (frame.version != firmware::frame_version || frame.gate_on_us > frame.gate_off_us ||
        frame.gate_off_us > firmware::tick_length_us) {
        throw std::runtime_error(
            fmt::format("the controller returned a frame that breaks the contract: version {}, "
                        "gate {} to {} us",
                        frame.version, frame.gate_on_us, frame.gate_off_us));
    }
    PowerCommands commands;
    commands.line_coil = call_for_cooling && frame.contactor_permit != 0;
    commands.start_capacitor_coil = frame.start_capacitor_contact != 0;
    commands.bypass_coil = frame.bypass_contact != 0;
    commands.gate_on = Instant(1000LL * frame.gate_on_us);
    commands.gate_off = Instant(1000LL * frame.gate_off_us);
    return commands;
}

}  // namespace sim
