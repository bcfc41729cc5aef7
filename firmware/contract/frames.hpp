// What crosses between the controller and the world, once per tick: one sensor frame in, one
// actuator frame out. Nothing else crosses.
//
// Both are plain structs of fixed-width integers with a version, without padding, so that the same
// bytes serve a controller in this program, a shared library, or a processor at the end of a wire
// (little-endian there).
//
// Terminals carry the trade's names: R (run), S (start), C (common); L1 is the incoming line.
// Signs: a voltage is positive when its first-named terminal is above C. The output current is
// positive when it flows from L1 through the limiter's output into the motor.
#pragma once

#include <cstdint>

namespace firmware {

inline constexpr std::uint16_t frame_version = 1;

/// One tick is 100 us (10 kHz).
inline constexpr std::int32_t tick_length_us = 100;
inline constexpr std::int32_t ticks_per_second = 10000;

/// Samples taken at the start of a tick, in raw converter counts (scales: sensor_scale.hpp).
struct SensorFrame {
    std::uint16_t version = frame_version;
    std::uint16_t line_voltage_counts = 0;            ///< L1 to C, at the limiter's incoming side
    std::uint16_t output_current_counts = 0;          ///< main winding plus start capacitor
    std::uint16_t start_terminal_voltage_counts = 0;  ///< S to C
    std::uint16_t heatsink_counts = 0;
    std::uint16_t call_for_cooling = 0;  ///< 1 while the thermostat calls, else 0
};
static_assert(sizeof(SensorFrame) == 12, "frames have no padding");

/// What the outputs do during one tick. The bench (like the hardware) applies a frame one tick
/// after the samples it answers: the gate window below lies in the tick that starts then.
struct ActuatorFrame {
    std::uint16_t version = frame_version;
    /// The gate is driven from `gate_on_us` to `gate_off_us` after the start of the tick
    /// (0 <= on < off <= 100). Equal values mean no pulse. A pulse that lasts to 100 and goes on
    /// from 0 in the next frame is one unbroken pulse.
    std::uint16_t gate_on_us = 0;
    std::uint16_t gate_off_us = 0;
    std::uint8_t start_capacitor_contact = 0;  ///< coil of the start-capacitor contact
    std::uint8_t bypass_contact = 0;           ///< coil of the bypass contact
    std::uint8_t contactor_permit = 0;         ///< 1 lets the call reach the unit's line contactor
    std::uint8_t reserved = 0;                 ///< always 0
    std::uint16_t status = 0;                  ///< low byte: state; high byte: reason
};
static_assert(sizeof(ActuatorFrame) == 12, "frames have no padding");

}  // namespace firmware
